"""What changes a made club's book, or gives all of it out: as it is typed, each by itself."""

import csv
import os
import sqlite3
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from shutil import copyfile
from subprocess import check_output
from tempfile import TemporaryDirectory

from benchmarks.figure import Figure
from classclock.book.tables.book_file import FILE
from classclock.clock.source import MS, raw_now

_SECOND = 1000 * MS


def command_figures(named: str, folder: Path) -> Iterator[Figure]:
    """A rename and the first page after it, everything given out, somebody erased for good."""
    start, _ = _typed(folder, "bar", "80")
    renamed, _ = _typed(folder, "book", "rename", "Athlete 7", "Agda")
    shown, _ = _typed(folder, "athlete", "Agda")
    words = "beside a start"
    yield Figure(f"{named}a rename, {words}", renamed, "s", start, most=1)
    yield Figure(f"{named}the first page after it, {words}", shown, "s", start, most=1)
    with TemporaryDirectory() as into:
        took, megabytes = _typed(folder, "book", "export", f"{into}/out")
    bare = _seconds(lambda: _bare_tables(folder))
    yield Figure(f"{named}everything given out, beside bare tables", took, "s", bare, most=60)
    yield Figure(f"{named}everything given out, its memory", megabytes, "MB", most=200)
    took, megabytes = _typed(folder, "book", "erase", "Athlete 9", "--yes")
    bare = _seconds(lambda: _bare_erasure(folder))
    words = "beside reading all and writing those with the name"
    yield Figure(f"{named}somebody erased, {words}", took, "s", bare, most=20)
    yield Figure(f"{named}somebody erased, its memory", megabytes, "MB")


_WEIGHED = """
import os, subprocess, sys
process = subprocess.Popen(sys.argv[1:], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
_, status, used = os.wait4(process.pid, 0)
print(used.ru_maxrss)
sys.exit(os.waitstatus_to_exitcode(status))
"""
"""Runs a command and prints its most memory. A process has at least what began it had, so that this
one, which has read whole tables, can't begin it."""


def _typed(folder: Path, *words: str) -> tuple[float, float]:
    """Seconds that a command line takes, and its most memory in megabytes."""
    command = [sys.executable, "-m", "classclock", *words, "--club", str(folder)]
    before = raw_now()
    weighed = check_output([sys.executable, "-S", "-c", _WEIGHED, *command])
    took = (raw_now() - before) / _SECOND
    kilobytes = int(weighed) / (1024 if sys.platform == "darwin" else 1)
    return took, kilobytes / 1024


def _seconds(do: Callable[[], object]) -> float:
    before = raw_now()
    do()
    return (raw_now() - before) / _SECOND


def _bare_tables(folder: Path) -> None:
    """Every row of the book as CSV, as SQLite gives it."""
    book = sqlite3.connect(folder / FILE)
    with TemporaryDirectory() as into:
        for table in ("athletes", "classes", "seen", "results", "lifts", "bests"):
            with (Path(into) / table).open("w", encoding="utf-8", newline="") as file:
                csv.writer(file).writerows(book.execute(f"SELECT * FROM {table}"))  # noqa: S608  no parameter names a table
    book.close()


def _bare_erasure(folder: Path) -> None:
    """What no erasure can do without: looking into all files, some anew, the book without gaps."""
    with TemporaryDirectory() as into:
        for path in (folder / "results").glob("*.json"):
            data = path.read_bytes()
            if b'"Athlete 12"' in data:
                with (Path(into) / path.name).open("wb") as file:
                    file.write(data)
                    file.flush()
                    os.fsync(file.fileno())
        copyfile(folder / FILE, Path(into) / FILE)
        book = sqlite3.connect(Path(into) / FILE)
        book.execute("VACUUM")
        book.close()
