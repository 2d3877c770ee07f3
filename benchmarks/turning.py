"""ctrl+w until the other screen is painted whole: the room's wall, or the coach's own."""

from benchmarks.figure import Figure
from benchmarks.programs import NAMES, a_piece
from benchmarks.window import percentile
from classclock.clock.source import MS

_LANES = 26
_WALL = ("rounds in 55:00",)
_COACHS = "No notes", *NAMES[:_LANES]
"""What stands in terminal text on the one, and not at the same place on the other; a screen comes
out in one piece."""
_TURN, _NOT_ON_THE_TV = "\x17", "\x1b[18~"  # ctrl+w, F7
_BETWEEN = 1.3
"""Seconds: longer than the guard against a key that is held down."""


def turning(starts: int, turns: int) -> tuple[Figure, ...]:
    """`turns` of each in each of so many starts, the first of all among them."""
    first: list[float] = []
    waits: list[float] = []
    for _ in range(starts):
        with a_piece(_LANES) as window:
            window.press(_TURN)
            window.look_on(_BETWEEN)
            at = window.press(_NOT_ON_THE_TV)
            first.append((window.shown(*_COACHS) - at) / MS)
            for number in range(2 * turns):
                window.look_on(_BETWEEN)
                at = window.press(_TURN)
                there = _WALL if number % 2 == 0 else _COACHS
                waits.append((window.shown(*there, within=5) - at) / MS)
    what = f"to the coach's screen, {_LANES} lanes"
    return (
        Figure(f"the first time {what}", percentile(first, 50), "ms", most=50),
        Figure(f"{what} and back, p50", percentile(waits, 50), "ms", most=50),
        Figure(f"{what} and back, p99", percentile(waits, 99), "ms", most=50),
    )
