"""The whole book as files that any program reads: JSON, and CSV for each kind of record.

The tables say all that another club's book needs to give the same answers: taken in there and given
out again they are the same to the byte.
"""

import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from msgspec import Struct
from sqlalchemy import Connection

from classclock.book.files.copies import write_copy
from classclock.book.tables.contents import book_contents
from classclock.records.result import kg_of
from classclock.units.csv_cells import csv_bytes
from classclock.units.loads import plain
from classclock.units.moments import moment_words

_Row = dict[str, Any]


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


def export_book(connection: Connection, folder: Path, into: Path) -> tuple[Path, ...]:
    """Write everything into a folder, for this account alone; the files written.

    `book import` takes the folder in, or `results.csv` alone.

    Raises:
        OSError: a file can't be written.
    """
    contents = book_contents(connection)
    written = []
    for sheet in _sheets():
        path = into / f"{sheet.name}.csv"
        rows = filter(sheet.holds, contents[sheet.table])
        lines = [[cell(row) for cell in sheet.columns.values()] for row in rows]
        write_copy(folder, path, csv_bytes(tuple(sheet.columns), lines))
        written.append(path)
    path = into / "book.json"
    text = json.dumps(contents, ensure_ascii=False, indent=1)
    write_copy(folder, path, text.encode() + b"\n")
    return (*written, path)


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
    )
