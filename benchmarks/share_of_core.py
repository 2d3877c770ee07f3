"""How much of a core a running piece takes, with a tap a second."""

from statistics import median

from benchmarks.figure import Figure
from benchmarks.programs import NAMES, a_bare_app, a_piece
from benchmarks.window import Window
from classclock.clock.source import MS


def share_of_core(
    starts: int, seconds: int, lanes: int = 12, columns: int = 120, rows: int = 36
) -> Figure:
    ours, floor = [], []
    for _ in range(starts):
        with a_bare_app(columns, rows) as bare:
            floor.append(tapped_share(bare, "x", seconds))
        with a_piece(lanes, columns, rows) as window:
            keys = "".join(name[0].lower() for name in NAMES[:lanes])
            ours.append(tapped_share(window, keys, seconds))
    return Figure(
        "share of a core, a tap a second", median(ours), "%", median(floor), most_times=1.5
    )


def tapped_share(window: Window, keys: str, seconds: int) -> float:
    """Percent of a core that the program takes with one of these keys a second."""
    before = window.core_ns()
    for number in range(seconds):
        window.press(keys[number % len(keys)])
        window.look_on(1)
    return (window.core_ns() - before) / (seconds * 1000 * MS) * 100
