"""One run of a class, with a trick or without: what it measures, by figure."""

import signal
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager
from itertools import count
from pathlib import Path
from statistics import median
from typing import Any

import msgspec
from msgspec.structs import replace

from benchmarks.first_paint import painted
from benchmarks.key_to_screen import rounds_struck
from benchmarks.programs import NAMES, ClassWindow, a_class, begin
from benchmarks.share_of_core import tapped_share
from benchmarks.tricks.turning import OFF
from benchmarks.tricks.without import SEEN
from benchmarks.window import percentile
from classclock.clock.source import MS, raw_now

_KEYS, _SECONDS, _RESIZED = 60, 4, 10
_READ = 5
"""Seconds in which what must be read at the foot has its turns: what is tapped is said after it."""
_NEXT = 0.1
"""Seconds between two keys where the same process is compared with itself: with all lanes tapped
in turn, one that comes again is no held key."""
_BEFORE = 30
"""Milliseconds before a second at which the window is resized: laying it out takes longer."""

Measured = Mapping[str, float]
Kept = Mapping[str, Mapping[str, int]]
"""By name, what was counted of what is kept."""


class Wall(msgspec.Struct, frozen=True):
    """The class that is run, and where what it sees inside goes."""

    folder: Path
    lanes: int = 12
    columns: int = 120
    rows: int = 36

    def without(self, trick: str) -> AbstractContextManager[ClassWindow]:
        program = ("benchmarks.tricks.without", trick, str(self.folder))
        return a_class(self.lanes, self.columns, self.rows, program)

    @property
    def keys(self) -> str:
        return "".join(name[0].lower() for name in NAMES[: self.lanes])

    def seen_in(self, window: ClassWindow) -> Any:
        """What was seen inside it until now.

        Raises:
            TimeoutError: it doesn't tell.
        """
        file = self.folder / SEEN
        file.unlink(missing_ok=True)
        window.signal(signal.SIGUSR1)
        for _ in range(50):
            window.look_on(0.1)
            if file.exists():
                return msgspec.json.decode(file.read_bytes())
        raise TimeoutError("it doesn't tell what it has seen")


def start(wall: Wall, trick: str) -> Measured:
    with wall.without(trick) as window:
        first = painted(window)
        return {"first paint, ms": first, "work until it, ms": window.core_ns() / MS}


def piece(wall: Wall, trick: str) -> Measured:
    with wall.without(trick) as window:
        first = painted(window)
        begin(window)
        window.look_on(_READ)
        waits = rounds_struck(window, _KEYS, wall.lanes)
        share = tapped_share(window, wall.keys, _SECONDS)
        return {
            "first paint, ms": first,
            "key to screen, p50, ms": percentile(waits, 50),
            "key to screen, p99, ms": percentile(waits, 99),
            "share of a core, %": share,
            "memory, MB": window.memory() / 1e6,
        }


def first_keys(wall: Wall, trick: str) -> Measured:
    """Two rounds for everybody, the first of a piece."""
    with wall.without(trick) as window:
        painted(window)
        begin(window)
        window.look_on(_READ)
        waits = rounds_struck(window, 2 * wall.lanes, wall.lanes)
        return {
            "first keys to screen, p50, ms": median(waits),
            "the slowest of them, ms": max(waits),
        }


def turned(wall: Wall, trick: str, pairs: int) -> Iterator[tuple[Measured, Measured]]:
    """With the trick and without it, turned in one piece: a round for everybody each time."""
    with wall.without("turning") as window:
        painted(window)
        begin(window)
        window.look_on(_READ)
        rounds = count(1)

        def round_of(off: str) -> Measured:
            (wall.folder / OFF).write_text(off, "utf-8")
            window.signal(signal.SIGUSR2)
            wall.seen_in(window)
            number, used, waits = next(rounds), window.core_ns(), []
            for name in NAMES[: wall.lanes]:
                at = window.press(name[0].lower())
                waits.append((window.shown(f"{name}, round {number},", within=5) - at) / MS)
                window.look_on(_NEXT)
            share = (window.core_ns() - used) / MS / wall.lanes
            return {"key to screen, p50, ms": median(waits), "a key's work, ms": share}

        round_of(""), round_of(trick)
        for number in range(pairs):
            if number % 2:
                lacking, having = round_of(trick), round_of("")
            else:
                having, lacking = round_of(""), round_of(trick)
            yield having, lacking


def resized(wall: Wall, trick: str) -> Measured:
    """A full wall whose window gets another size just before every second."""
    wall = replace(wall, lanes=len(NAMES), columns=240, rows=70)
    with wall.without(trick) as window:
        painted(window)
        first = begin(window) + 3 * 1000 * MS  # two have gone
        for number in range(_RESIZED):
            until = first + (number * 1000 - _BEFORE) * MS
            window.look_on((until - raw_now()) / (1000 * MS))
            window.resize(wall.columns, wall.rows - 1 - number)  # none is kept yet
        window.look_on(1)
        late = wall.seen_in(window)["late"][-_RESIZED:]
    return {"digits after their second, p50, ms": median(late), "the latest, ms": max(late)}


def counted(wall: Wall) -> Kept:
    """By what is kept, how often it was asked for in a start and a piece."""
    with wall.without("count") as window:
        painted(window)
        begin(window)
        rounds_struck(window, _KEYS, wall.lanes)
        kept: Kept = wall.seen_in(window)["kept"]
        return kept


Run = Callable[[Wall, str], Measured]
