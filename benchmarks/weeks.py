"""The last weeks of a club with many plans and classes, read from its files and counted."""

import os
from datetime import date
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from benchmarks.figure import Figure
from benchmarks.made_weeks import write_weeks
from classclock.book.asking.weeks_reading import read_weeks
from classclock.book.files.class_plans import read_again
from classclock.clock.source import MS, raw_now
from classclock.plan.movements.starter_library import starter_library
from classclock.planning.weeks import weeks_until

_PLANS, _DAYS, _TIMES = 2000, 365, 5
_TODAY = date(2026, 11, 25)


def last_weeks() -> Figure:
    """The four-week view of seven classes a day for a year, and 2,000 plans.

    Beside it, the names of all files and the heads of all plans, read alone.
    """
    library = starter_library()
    with TemporaryDirectory() as named:
        folder = Path(named)
        write_weeks(folder, _TODAY, days=_DAYS, plans=_PLANS)
        took, floors = [], []
        for _ in range(_TIMES):
            read_again.cache_clear()
            before = raw_now()
            read = read_weeks(folder, _TODAY)
            weeks = weeks_until(_TODAY, read.held, read.planned, library)
            took.append((raw_now() - before) / MS)
            assert weeks.weeks[0].held.classes == 49
            before = raw_now()
            _bare(folder)
            floors.append((raw_now() - before) / MS)
    return Figure("last weeks of 2,000 plans", median(took), "ms", median(floors), most=100)


def _bare(folder: Path) -> None:
    os.listdir(folder / "results")  # noqa: PTH208  as the view does
    for name in os.listdir(folder / "plans"):  # noqa: PTH208  the same
        opened = os.open(f"{folder}/plans/{name}", os.O_RDONLY)
        os.read(opened, 4096)
        os.close(opened)
