"""The two programs that are measured side by side: a class on the wall, and the bare app."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from benchmarks.bare_app import CELLS
from benchmarks.window import Window
from classclock.clock.source import MS

NAMES = (
    *("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell", "Anouk"),
    *("Cato", "Dagny", "Ewa", "Femke", "Goran", "Hanne", "Jory", "Kees", "Lior"),
    *("Mirza", "Quinn", "Rune", "Vesna", "Wiebe", "Xanthe", "Yara", "Zeno"),
)
"""Invented, and each of them keeps its first letter as its key."""

COUNT_IN = 3
"""Seconds."""
_READ = 12
"""Seconds in which what is said at a start, of sound and screen, has its turns."""
PLAN = f"""
title = "Measured"
[[segment]]
name = "Loop line"
format = "rounds-in-time"
time = "55:00"
count_in = "0:0{COUNT_IN}"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box"]
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
"""


class ClassWindow(Window):
    club = Path()

    def taps_counted(self) -> int:
        """How many taps stand in the journal."""
        journal = next((self.club / "journals").glob("*.jsonl"))
        return journal.read_text("utf-8").count('"Tapped"')


def _nothing_more(_: Path) -> Sequence[str]:
    return ()


@contextmanager
def a_class(
    lanes: int,
    columns: int = 120,
    rows: int = 36,
    program: Sequence[str] = ("classclock",),
    options: Callable[[Path], Sequence[str]] = _nothing_more,
) -> Iterator[ClassWindow]:
    """A class before its first paint; `program` is the module that runs it, and what that takes.

    `options` are more of them; it may put into the club's folder what they need.
    """
    with TemporaryDirectory() as folder:
        plan = Path(folder) / "measured.toml"
        plan.write_text(PLAN, "utf-8")
        names = ", ".join(NAMES[:lanes])
        with ClassWindow(
            *(*program, "run", str(plan), "--athletes", names, "--club", folder),
            *options(Path(folder)),
            columns=columns,
            rows=rows,
        ) as window:
            window.club = Path(folder)
            yield window


@contextmanager
def a_piece(
    lanes: int,
    columns: int = 120,
    rows: int = 36,
    options: Callable[[Path], Sequence[str]] = _nothing_more,
) -> Iterator[ClassWindow]:
    """Its piece, running; whatever must be read at the foot has been, and answers come at once."""
    with a_class(lanes, columns, rows, options=options) as window:
        window.shown("enter starts")
        begin(window)
        window.look_on(_READ)
        yield window


def begin(window: Window) -> int:
    """Start the piece of a painted class, until it runs for two seconds; its go, raw, in ns."""
    go = window.press("\r") + COUNT_IN * 1000 * MS
    window.look_on(COUNT_IN + 2)
    return go


@contextmanager
def a_bare_app(columns: int = 120, rows: int = 36) -> Iterator[Window]:
    """The floor, painted and at rest."""
    with Window("benchmarks.bare_app", columns=columns, rows=rows) as window:
        window.shown(f"cell {CELLS - 1}")
        window.look_on(1)
        yield window
