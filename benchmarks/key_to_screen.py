"""One key at a time, until what it did is on the screen."""

from collections.abc import Callable

from benchmarks.figure import Figure
from benchmarks.programs import NAMES, a_bare_app, a_piece
from benchmarks.window import Window, percentile
from classclock.clock.source import MS

_BETWEEN = 0.11
"""Seconds: twelve keys in turn are each struck again after more than the guard's 1.2 s."""


def key_to_screen(
    starts: int, keys: int, lanes: int = 12, columns: int = 120, rows: int = 36
) -> tuple[Figure, ...]:
    ours: list[float] = []
    floor: list[float] = []
    for _ in range(starts):
        with a_bare_app(columns, rows) as bare:
            floor += _struck(bare, keys, lambda number: ("x", f"key {number + 1}."))
        with a_piece(lanes, columns, rows) as window:
            ours += rounds_struck(window, keys, lanes)
    wide = percentile(ours, 99)
    return (
        Figure(
            "key to screen, p50", percentile(ours, 50), "ms", percentile(floor, 50), most_times=1.5
        ),
        Figure("key to screen, p99", wide, "ms", percentile(floor, 99), most=20),
    )


def rounds_struck(window: Window, keys: int, lanes: int) -> list[float]:
    """The milliseconds that each of so many keys took, each a round of the next lane."""
    return _struck(window, keys, lambda number: _round(number, lanes))


def _round(number: int, lanes: int) -> tuple[str, str]:
    name = NAMES[number % lanes]
    return name[0].lower(), f"{name}, round {number // lanes + 1},"


def _struck(window: Window, keys: int, expect: Callable[[int], tuple[str, str]]) -> list[float]:
    waits = []
    for number in range(keys):
        key, text = expect(number)
        at = window.press(key)
        waits.append((window.shown(text, within=5) - at) / MS)
        window.look_on(_BETWEEN)
    return waits
