"""The book of a made club: asked, added to and made anew; `python -m benchmarks.book`.

Each figure stands beside the bare SQLite work that it can't do without, measured in the same run.
"""

import argparse
import random
import sqlite3
import sys
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from msgspec import convert
from rich.console import Console
from rich.table import Table

from benchmarks.book_commands import command_figures
from benchmarks.figure import HEADS, Figure
from benchmarks.made_club import ATHLETES, made_class, write_classes
from benchmarks.people_list import people_list
from classclock.book.asking.chart_bests import chart_bests
from classclock.book.asking.recorded_loads import recorded_loads
from classclock.book.asking.return_reading import ReturnQuestion, read_returns
from classclock.book.asking.step_reading import StepQuestion, read_uses
from classclock.book.files.results_writing import write_document
from classclock.book.people_ids import entry_of
from classclock.book.tables.book_file import FILE
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.opening import Book, open_book
from classclock.book.tables.queries import all_athletes, find
from classclock.book.tables.rebuilding import make_anew
from classclock.clock.source import MS, raw_now
from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.next_steps import next_step
from classclock.records.attendance import first_day
from classclock.records.document import ResultsDocument
from classclock.report.athlete_page import athlete_page
from classclock.report.chart.chart import chart

TIMES = 7
_HERE = 26
_ENOUGH = 5
"""Scores like the others', as a club has it that says nothing."""
_DAY_MS = 24 * 60 * 60 * 1000
_PLAN = """
title = "Made"
[[segment]]
name = "Benchmark 1"
benchmark = "benchmark 1"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 27
  options = ["lower box", "step-up"]
"""
_LATER = 10**19
"""So late that a folder which hasn't changed isn't looked through."""


def ms_of(do: Callable[[], object], times: int = TIMES) -> float:
    """The median of some runs, in milliseconds."""
    took = []
    for _ in range(times):
        before = raw_now()
        do()
        took.append((raw_now() - before) / MS)
    return median(took)


def figures(classes: int, *, windows: bool) -> Iterator[Figure]:
    """The figures for a club with so many classes of twenty."""
    results = classes * 20
    named = f"{results:,} results: "
    with TemporaryDirectory() as made:
        folder = Path(made)
        chance = random.Random(1)  # noqa: S311  a sample, no secret
        write_classes(folder, classes, chance)
        before = raw_now()
        make_anew(folder, _LATER)
        seconds = (raw_now() - before) / MS / 1000
        book = open_book(folder)
        bare = sqlite3.connect(folder / FILE)
        per_result = bare_inserts(bare)
        yield Figure(
            f"{named}made anew, each result", seconds / results * 1e6, "us", per_result, most=50
        )
        yield _chart(named, book, bare)
        yield _page(named, book, bare)
        yield _loads(named, book, bare)
        yield _flags(named, book, bare)
        yield _one_class(named, book, classes, chance)
        here = [f"Athlete {number}" for number in range(_HERE)]
        if windows:
            yield from people_list(named, folder, here, TIMES)
        bare.close()
        book.close()
        yield from command_figures(named, folder)


def bare_inserts(bare: sqlite3.Connection) -> float:
    """Microseconds to put each of the same rows into an empty table with the same keys."""
    rows = bare.execute("SELECT * FROM results").fetchall()
    made = bare.execute("SELECT sql FROM sqlite_master WHERE name = 'results'").fetchone()[0]
    empty = sqlite3.connect(":memory:")
    empty.execute(made)
    empty.execute("CREATE INDEX one ON results (athlete, benchmark, moment)")
    places = ",".join("?" * len(rows[0]))
    before = raw_now()
    empty.executemany(f"INSERT INTO results VALUES ({places})", rows)  # noqa: S608  only ?s
    empty.commit()
    took = (raw_now() - before) / 1000
    empty.close()
    return took / len(rows)


def _chart(named: str, book: Book, bare: sqlite3.Connection) -> Figure:
    here = [f"athlete-{number:03}" for number in range(0, ATHLETES, ATHLETES // 20)][:20]

    def ask() -> None:
        catch_up(book, _LATER)
        with book.reading() as connection:
            everybody, bests = all_athletes(connection), chart_bests(connection, here)
        assert chart(everybody, bests, month="2026-01", here=here).rows

    entries = [entry_of(book.room, one) for one in here]
    marks = ",".join("?" * len(here))
    queries = [
        f"SELECT * FROM {table} WHERE athlete IN ({marks})"  # noqa: S608  only ?s
        for table in ("bests", "set_bests")
    ]

    def floor() -> None:
        bare.execute("SELECT * FROM athletes").fetchall()
        for query in queries:
            bare.execute(query, entries).fetchall()

    return Figure(f"{named}chart of 20 who are here", ms_of(ask), "ms", ms_of(floor), most=100)


def _page(named: str, book: Book, bare: sqlite3.Connection) -> Figure:
    last = bare.execute("SELECT max(day) FROM seen").fetchone()[0]
    today = date.fromisoformat(last)
    with book.reading() as connection:
        athlete = next(one for one in all_athletes(connection) if one.id == "athlete-007")

    def ask() -> None:
        catch_up(book, _LATER)
        with book.reading() as connection:
            assert athlete_page(connection, athlete, today).bests

    with book.reading() as connection:
        shown = athlete_page(connection, athlete, today).shown
    since = first_day(today).isoformat()
    asked = {"who": entry_of(book.room, athlete.id), "since": since, "shown": shown}

    def floor() -> None:
        for query in _OF_A_PAGE:
            bare.execute(query, asked).fetchall()

    return Figure(f"{named}an athlete's page", ms_of(ask), "ms", ms_of(floor), most=50)


_HEAVIEST = """
    SELECT lift, reps, max(worth), load, written, day FROM lifts
    WHERE athlete = :who AND counts GROUP BY lift, reps
"""
_OF_A_PAGE = (
    "SELECT * FROM bests WHERE athlete = :who",
    "SELECT day FROM seen WHERE athlete = :who AND came AND day >= :since ORDER BY day",
    "SELECT * FROM results WHERE athlete = :who AND benchmark = :shown ORDER BY moment",
    """
    SELECT modification, count(*) FROM results
    WHERE athlete = :who AND day >= :since AND modification != '' GROUP BY 1
    """,
    """
    SELECT class_key, person, seen.day, seen.moment, title, seen.effort, here_s
    FROM seen LEFT JOIN efforts_given USING (class_key, person) LEFT JOIN classes USING (class_key)
    WHERE athlete = :who AND came AND seen.day >= :since ORDER BY seen.moment
    """,
    _HEAVIEST,
)
"""What a page shows, as anybody would ask SQLite for it."""


def _loads(named: str, book: Book, bare: sqlite3.Connection) -> Figure:
    """What `load NAME` asks."""

    def ask() -> None:
        catch_up(book, _LATER)
        with book.reading() as connection:
            (athlete,) = find(connection, "Athlete 7")
            assert recorded_loads(connection, athlete.id)

    entry = entry_of(book.room, "athlete-007")

    def floor() -> None:
        bare.execute("SELECT athlete, name FROM athletes").fetchall()
        bare.execute("SELECT * FROM lifts WHERE athlete = ? AND counts", (entry,)).fetchall()

    return Figure(f"{named}what somebody lifted", ms_of(ask), "ms", ms_of(floor), most=100)


def _flags(named: str, book: Book, bare: sqlite3.Connection) -> Figure:
    """What F7 at "who is here" says of 26 people: who comes back, who may try the next option."""
    here = [f"athlete-{number:03}" for number in range(_HERE)]
    last = bare.execute("SELECT max(moment) FROM seen").fetchone()[0]
    today = date.fromisoformat(bare.execute("SELECT max(day) FROM seen").fetchone()[0])
    plan, _ = parse_plan(_PLAN, "made.toml")
    assert plan is not None
    (segment,) = plan.segment

    def ask() -> None:
        catch_up(book, _LATER)
        with book.reading() as connection:
            returned = ReturnQuestion(here, plan, today, last + 1)
            assert len(read_returns(connection, book.folder, returned).weeks) <= _HERE
            uses = read_uses(connection, StepQuestion(here, plan, last + 1, _ENOUGH))
        for ident in here:
            for option in (0, 1, 2):
                used = uses.of(ident, segment, 0, option)
                next_step(segment.station[0], option, used, _ENOUGH)

    entries = [entry_of(book.room, one) for one in here]
    queries = [
        query.format(",".join("?" * len(here)), last - days * _DAY_MS)
        for days, query in (
            (365, "SELECT athlete, day FROM seen WHERE athlete IN ({}) AND came AND moment >= {}"),
            (182, "SELECT * FROM results WHERE athlete IN ({}) AND moment >= {}"),
        )
    ]
    floor = ms_of(lambda: [bare.execute(query, entries).fetchall() for query in queries])
    return Figure(f"{named}flags of 26 who are here", ms_of(ask), "ms", floor, most=50)


def _one_class(named: str, book: Book, classes: int, chance: random.Random) -> Figure:
    """A class that was just settled, taken in; each time a new one."""
    took = []
    for number in range(classes, classes + TIMES):
        document = convert(made_class(number, chance), ResultsDocument)
        path = book.folder / "results" / f"{document.journal.removesuffix('.jsonl')}.json"
        write_document(path, document)
        before = raw_now()
        assert catch_up(book, 0).classes == 1
        took.append((raw_now() - before) / MS)
    return Figure(f"{named}one class taken in", median(took), "ms", bare_commit(), most=50)


def bare_commit() -> float:
    """Twenty rows put into a file and synced."""
    with TemporaryDirectory() as folder:
        bare = sqlite3.connect(Path(folder) / "bare.sqlite")
        bare.execute("CREATE TABLE rows (a, b, c, d, e)")

        def put() -> None:
            bare.executemany("INSERT INTO rows VALUES (?, ?, ?, ?, ?)", [(1, 2, 3, 4, 5)] * 20)
            bare.commit()

        took = ms_of(put)
        bare.close()
    return took


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.book", description=__doc__)
    parser.add_argument("--classes", default="250,2500,25000", help="how many, one club each")
    table = Table(*HEADS, box=None, pad_edge=False)
    parser.add_argument("--no-windows", action="store_true", help="without what needs a terminal")
    asked = parser.parse_args()
    for classes in asked.classes.split(","):
        for figure in figures(int(classes), windows=not asked.no_windows):
            print("  ".join(figure.row()), file=sys.stderr)
            table.add_row(*figure.row())
    Console(width=140).print(table)
    return 0


if __name__ == "__main__":
    sys.exit(main())
