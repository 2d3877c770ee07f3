"""Twenty-six lanes on a wall of few colours, which is then all plain text: what stands on it."""

import re
from collections.abc import Mapping
from types import MappingProxyType

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.layout.nodes import Box
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.theme import SIXTEEN
from classclock.screens.live.wall.big_clock import ClockFace, draw_clock
from classclock.screens.live.wall.wall_view import alone_layout, lanes_layout
from classclock.units.times import show_time

COLUMNS, ROWS = 120, 36
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
_TALLY = re.compile(rf"({'|'.join(PEOPLE)}) +(?:[^\s\d] +)?(\d+)\b")
"""A name, a sign where a round may be missing or is doubtful, the rounds."""


def tallies(text: str) -> dict[str, int]:
    """The rounds of each lane whose row can be read."""
    return {name: int(rounds) for name, rounds in _TALLY.findall(text)}


def clock_rows(text: str, rows: int = ROWS, *, count_in: bool = False) -> tuple[str, ...]:
    """The rows and columns in which the clock stands, while the piece runs or before it."""
    box = _box(rows, count_in=count_in)
    lines = text.split("\n")[box.y : box.y + box.height]
    return tuple(line[box.x : box.x + box.width] for line in lines)


def clock_drawn(time: str, rows: int = ROWS, *, count_in: bool = False) -> tuple[str, ...]:
    """Those rows when the clock shows this."""
    box = _box(rows, count_in=count_in)
    look = Look(SIXTEEN, Terminal(16, "halves"))
    face = ClockFace(time, across="middle" if count_in else "left")
    return tuple(plain_text(draw_clock(face, box.width, box.height, look)).split("\n"))


def left_of(total: int, elapsed: int) -> str:
    """What a clock that counts down from `total` shows at `elapsed`, both in ms."""
    return show_time(-(-(total - elapsed) // 1000) * 1000)


def _box(rows: int, *, count_in: bool) -> Box:
    if count_in:
        return alone_layout(COLUMNS, rows - 1, 1, lines=True).clock
    return lanes_layout(COLUMNS, rows - 1, len(PEOPLE), max(map(len, PEOPLE))).clock


def is_up(text: str) -> bool:
    """Whether clock and lanes are all on the screen."""
    rows = clock_rows(text)
    return len(tallies(text)) == len(PEOPLE) and any(row.strip() for row in rows)
