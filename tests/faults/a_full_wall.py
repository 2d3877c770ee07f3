"""Twenty-six lanes on a wall of few colours, which is then all plain text: what stands on it."""

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from types import MappingProxyType

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.units.times import show_time

COLUMNS, ROWS = 80, 24
_LEAST_CLOCK, _MOST_CLOCK = 3, ROWS
PEOPLE = (
    *("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell", "Anouk", "Cato"),
    *("Dagny", "Ewa", "Fenna", "Goran", "Hanne", "Jory", "Kaat", "Lotte", "Mirza", "Quinn"),
    *("Ranko", "Vesna", "Wim", "Xenia", "Yara", "Zoltan"),
)
"""Twenty-six, each with a letter of their own."""
NAMES = ", ".join(PEOPLE)
KEYS = "".join(name[0].lower() for name in PEOPLE)
LOOK: Mapping[str, str] = MappingProxyType(
    {"TERM": "xterm-16color", "COLORTERM": "", "CLASSCLOCK_SOUND": "silent"}
)
"""The environment in which the wall comes out like that, and in silence."""
_TALLY = re.compile(rf"({'|'.join(PEOPLE)}) +(?:[^\s\d] *)?(\d+)\b")
"""A name, a sign close to them where a round may be missing or is doubtful, the rounds."""


def tallies(text: str) -> dict[str, int]:
    """The rounds of each lane whose row can be read."""
    return {name: int(rounds) for name, rounds in _TALLY.findall(text)}


def shows_clock(text: str, time: str) -> bool:
    """Whether the clock stands anywhere on the screen and shows this, in whatever size."""
    lines = text.split("\n")
    return any(_stands(lines, _drawn(time, rows)) for rows in range(_LEAST_CLOCK, _MOST_CLOCK))


@lru_cache(maxsize=4096)
def _drawn(time: str, rows: int) -> tuple[str, ...]:
    """The clock's rows, without what is blank at its sides."""
    look = Look(SIXTEEN, Terminal(16, "halves"))
    drawn = plain_text(look.letters(time, COLUMNS, rows)).split("\n")
    if len(drawn) < rows:
        return ()
    left = min(len(line) - len(line.lstrip()) for line in drawn if line.strip())
    right = max(len(line.rstrip()) for line in drawn)
    return tuple(line.ljust(right)[left:right] for line in drawn)


def _stands(lines: Sequence[str], drawn: Sequence[str]) -> bool:
    if not drawn:
        return False
    wide = len(drawn[0])
    for y, line in enumerate(lines[: len(lines) - len(drawn) + 1]):
        x = line.find(drawn[0])
        while x >= 0:
            if all(lines[y + n][x : x + wide] == row for n, row in enumerate(drawn)):
                return True
            x = line.find(drawn[0], x + 1)
    return False


def left_of(total: int, elapsed: int) -> str:
    """What a clock that counts down from `total` shows at `elapsed`, both in ms."""
    return show_time(-(-(total - elapsed) // 1000) * 1000)


def is_up(text: str) -> bool:
    """Whether all lanes are on the screen, and something over them."""
    return len(tallies(text)) == len(PEOPLE) and bool(text.split("\n")[2].strip())
