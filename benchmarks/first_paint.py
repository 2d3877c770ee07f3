"""From the start of the process to the first paint that has everything in it."""

from statistics import median

from benchmarks.bare_app import CELLS
from benchmarks.figure import Figure
from benchmarks.programs import a_class
from benchmarks.window import Window
from classclock.clock.source import MS


def first_paint(starts: int, lanes: int = 12, columns: int = 120, rows: int = 36) -> Figure:
    ours, floor = [], []  # the first start of each, which compiles its modules, is left out
    for _ in range(starts + 1):
        with Window("benchmarks.bare_app", columns=columns, rows=rows) as bare:
            floor.append((bare.shown(f"cell {CELLS - 1}") - bare.started) / MS)
        with a_class(lanes, columns, rows) as window:
            ours.append(painted(window))
    return Figure(
        "start to first paint, p50", median(ours[1:]), "ms", median(floor[1:]), most_times=1.6
    )


def painted(window: Window) -> float:
    """Milliseconds from the start of a class to its first paint."""
    return (window.shown("enter starts") - window.started) / MS
