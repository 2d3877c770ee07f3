"""The whole book as files that any program reads: JSON, and CSV for each kind of record.

The tables say all that another club's book needs to give the same answers: taken in there and given
out again they are the same to the byte.
"""

import json
from collections.abc import Callable, Sequence
from itertools import islice
from pathlib import Path
from typing import Any

from msgspec import Struct
from msgspec.json import encode as json_encode
from msgspec.json import format as json_format
from sqlalchemy import Connection, Table

from classclock.book.files.copies import CopyBeingWritten, copies_written
from classclock.book.tables.contents import TABLES, row_count, table_contents
from classclock.book.tables.opening import Book
from classclock.book.unchanging import unchanging
from classclock.book.under_way import told
from classclock.records.result import kg_of
from classclock.units.csv_cells import csv_heading, csv_rows
from classclock.units.loads import plain
from classclock.units.moments import moment_words

_Row = dict[str, Any]
_AT_ONCE = 2_000
"""Rows that are written together."""


class _Sheet(Struct, frozen=True):
    """One CSV: which table it is from, and what stands in each column."""

    name: str
    table: str
    columns: dict[str, Callable[[_Row], Any]]
    holds: Callable[[_Row], bool] = lambda _: True
    """Which rows stand in it."""


def _field(name: str) -> Callable[[_Row], Any]:
    return lambda row: row[name]


def _at(row: _Row) -> str:
    return moment_words(row["moment"])


def export_book(book: Book, into: Path) -> tuple[Path, ...]:
    """Write everything into a folder, for this account alone; the files written.

    As it stands at one moment: whatever is changed meanwhile isn't in it. `book import` takes the
    folder in, or `results.csv` alone.

    Raises:
        BookError, BookHeldError: the book can't be read.
        OSError: a file can't be written. Then no file has changed.
    """
    sheets = {sheet.table: sheet for sheet in _sheets()}
    paths = [into / f"{sheet.name}.csv" for sheet in sheets.values()]
    everything = into / "book.json"
    with unchanging(book) as connection, copies_written(book.folder, [*paths, everything]) as files:
        *tables, whole = files
        written = dict(zip(sheets, tables, strict=True))
        for number, table in enumerate(TABLES):
            whole.write(b"{\n" if number == 0 else b",\n")
            sheet = sheets.get(table.name)
            _write_table(connection, table, sheet, written.get(table.name), whole)
        whole.write(b"\n}\n")
    return (*paths, everything)


def _write_table(
    connection: Connection,
    table: Table,
    sheet: _Sheet | None,
    csv: CopyBeingWritten | None,
    whole: CopyBeingWritten,
) -> None:
    """A table into its own file, if it has one, and into that of everything."""
    words, of = f"Writing {table.name}", row_count(connection, table)
    if sheet is not None and csv is not None:
        csv.write(csv_heading(tuple(sheet.columns)))
    rows, done = table_contents(connection, table), 0
    whole.write(f' "{table.name}": ['.encode())
    while some := list(islice(rows, _AT_ONCE)):
        told(words, done, of)
        if sheet is not None and csv is not None:
            cells = list(sheet.columns.values())
            lines = ([cell(row) for cell in cells] for row in some if sheet.holds(row))
            csv.write(csv_rows(lines))
        whole.write(b"\n" if done == 0 else b",\n")
        whole.write(_json_rows(some))
        done += len(some)
    told(words, of, of)
    whole.write(b"\n ]" if done else b"]")


def _json_rows(rows: Sequence[_Row]) -> bytes:
    """Rows as they stand within a document that is indented by one."""
    listed = json_format(json_encode(rows), indent=1)
    inner = listed.removeprefix(b"[\n").removesuffix(b"\n]")
    return b" " + inner.replace(b"\n", b"\n ")


def _sheets() -> Sequence[_Sheet]:
    who = {"name": _field("who")}
    score = {name: _field(name) for name in ("benchmark", "score")}
    terms = {"modification": _field("modification"), "load": _field("loads")}
    return (
        _Sheet(
            "athletes",
            "athletes",
            {
                "name": _field("name"),
                "key": _field("key"),
                "marks": lambda row: ", ".join(json.loads(row["marks"])),
                "classes": _field("classes"),
                "first": _field("first_day"),
                "last": _field("last_day"),
            },
        ),
        _Sheet(
            "attendance",
            "seen",
            {
                **who,
                "date": _field("day"),
                "came": lambda row: int(row["came"]),
                "key": _field("key"),
                "at": _at,
                "effort": _field("effort"),
                "here_s": _field("here_s"),
            },
            holds=lambda row: bool(row["came"]),
        ),
        _Sheet(
            "results",
            "results",
            {
                **who,
                **score,
                "date": _field("day"),
                **terms,
                "work": _field("work"),
                "piece": _field("name"),
                "rank": _field("rank"),
                "status": _field("status"),
                "note": _field("note"),
                "kind": _field("kind"),
                "why_not": _field("why_not"),
                "team": _field("team"),
                "total_reps": _field("total_reps"),
                "at": _at,
                "written": _field("written"),
            },
        ),
        _Sheet(
            "lifts",
            "lifts",
            {
                **who,
                "lift": _field("lift"),
                "reps": _field("reps"),
                "load": _field("load"),
                "load_kg": lambda row: plain(kg_of(row["worth"]).amount),
                "made": lambda row: int(row["made"]),
                "date": _field("day"),
                "status": lambda row: "settled" if row["settled"] else "provisional",
                "at": _at,
            },
        ),
        _Sheet(
            "bests",
            "bests",
            {**who, **score, "date": _field("day"), **terms, "work": _field("work")},
        ),
        _Sheet(
            "goals",
            "goals",
            {
                **who,
                "benchmark": _field("written"),
                "goal": _field("score"),
                "kind": _field("kind"),
                "set": _field("since"),
                "by": _field("by"),
                "ended": _field("until"),
                **terms,
                "work": _field("work"),
            },
        ),
    )
