"""The two programs that are measured side by side: a class on the wall, and the bare app."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from benchmarks.bare_app import CELLS
from benchmarks.window import Window

NAMES = (
    *("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell", "Anouk"),
    *("Cato", "Dagny", "Ewa", "Femke", "Goran", "Hanne", "Jory", "Kees", "Lior"),
    *("Mirza", "Quinn", "Rune", "Vesna", "Wiebe", "Xanthe", "Yara", "Zeno"),
)
"""Invented, and each of them keeps its first letter as its key."""

PLAN = """
title = "Measured"
[[segment]]
name = "Loop line"
format = "rounds-in-time"
time = "55:00"
count_in = "0:03"
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


@contextmanager
def a_class(lanes: int, columns: int = 120, rows: int = 36) -> Iterator[ClassWindow]:
    """A class before its first paint."""
    with TemporaryDirectory() as folder:
        plan = Path(folder) / "measured.toml"
        plan.write_text(PLAN, "utf-8")
        names = ", ".join(NAMES[:lanes])
        with ClassWindow(
            *("classclock", "run", str(plan), "--athletes", names, "--club", folder),
            columns=columns,
            rows=rows,
        ) as window:
            window.club = Path(folder)
            yield window


@contextmanager
def a_piece(lanes: int, columns: int = 120, rows: int = 36) -> Iterator[ClassWindow]:
    """Its piece, running for two seconds."""
    with a_class(lanes, columns, rows) as window:
        window.shown("enter starts")
        window.press("\r")
        window.look_on(5)
        yield window


@contextmanager
def a_bare_app(columns: int = 120, rows: int = 36) -> Iterator[Window]:
    """The floor, painted and at rest."""
    with Window("benchmarks.bare_app", columns=columns, rows=rows) as window:
        window.shown(f"cell {CELLS - 1}")
        window.look_on(1)
        yield window
