"""The list of who is here, over the board of a class: how soon it is open, how soon closed."""

from collections.abc import Sequence
from pathlib import Path

from benchmarks.figure import Figure
from benchmarks.programs import PLAN, a_bare_app
from benchmarks.window import Window, percentile
from classclock.clock.source import MS

_CTRL_P, _ESCAPE = "\x10", "\x1b"
_READ = 15
"""Seconds in which what is said at a start has its turns, and the book is read."""
_BETWEEN = 1.5
"""Seconds: a key struck again within the guard's 1.2 s isn't taken."""


def people_list(
    named: str, folder: Path, names: Sequence[str], times: int, size: tuple[int, int] = (120, 36)
) -> tuple[Figure, Figure, Figure]:
    """In the club of this folder; `names` are who is here."""
    columns, rows = size
    plan = folder / "measured.toml"
    plan.write_text(PLAN, "utf-8")
    opens: list[float] = []
    closes: list[float] = []
    escapes: list[float] = []
    arguments = ("run", str(plan), "--athletes", ", ".join(names), "--club", str(folder))
    with Window("classclock", *arguments, columns=columns, rows=rows) as window:
        window.shown("enter starts", within=60)
        window.look_on(_READ)
        for took, key in ((closes, _CTRL_P), (escapes, _ESCAPE)) * times:
            opens.append(_until(window, _CTRL_P, f"{len(names)} here", "? its keys"))
            took.append(_until(window, key, "segment 1 of 1", "enter starts"))
    with a_bare_app(columns, rows) as bare:
        keys = [_until(bare, "x", f"key {number}.") for number in range(1, times + 1)]
        alone = [_until(bare, _ESCAPE, f"key {times + number}.") for number in range(1, times + 1)]
    floor, floor_alone = percentile(keys, 50), percentile(alone, 50)
    here = f"{named}who is here"
    return (
        Figure(f"{here} opens", percentile(opens, 50), "ms", floor, most=50),
        Figure(f"{here} closes, ctrl+p", percentile(closes, 50), "ms", floor, most=50),
        # Textual waits 100 ms whether a lone escape is the beginning of another key.
        Figure(f"{here} closes, escape", percentile(escapes, 50), "ms", floor_alone, 1.5),
    )


def _until(window: Window, key: str, *texts: str) -> float:
    """Milliseconds from a key until all of these have come out."""
    at = window.press(key)
    took = (window.shown(*texts, within=5) - at) / MS
    window.look_on(_BETWEEN)
    return took
