"""All that the book knows, as plain values in a fixed order: for exports, and to compare books.

The order is that of each table's keys, whatever the storage; of people that of their names where
their ids say nothing. Rows come as they are read: a club's book is larger than what memory has room
for.
"""

from collections.abc import Callable, Iterable, Iterator
from itertools import groupby
from operator import itemgetter
from typing import Any

from sqlalchemy import Column, ColumnElement, Connection, Select, Table, func, select

from classclock.book.people_ids import is_drawn, said_in
from classclock.book.tables.efforts_said import EFFORT, SEEN_WITH_EFFORT
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import (
    athletes,
    bests,
    classes,
    goals,
    lifts,
    results,
    seen,
    set_bests,
)
from classclock.machine.file_names import file_safe

ContentsRow = dict[str, Any]
TABLES = (athletes, classes, seen, results, lifts, bests, set_bests, goals)
_SAID = {"terms": ("modification", "loads", "work", "team")}
"""What stands for a key that is worked out, where rows are put in order."""
_PEOPLE = ("athlete", "person")
_WORKED_OUT = {lifts.name: ("counts", "written"), seen.name: ("effort",)}
"""Columns that only answer questions: what they say stands in others."""
_AT_ONCE = 2_000
"""Rows that are fetched together."""
_READ_IN_ORDER = {
    classes.name: ("class_key",),
    seen.name: ("class_key",),
    results.name: ("class_key", "piece", "lane"),
    lifts.name: ("class_key", "piece", "lane"),
}
"""The keys, without people, in whose order the storage gives rows: only few are equal in them."""


def book_contents(connection: Connection) -> dict[str, list[ContentsRow]]:
    """Each table's rows."""
    return {table.name: list(table_contents(connection, table)) for table in TABLES}


def row_count(connection: Connection, table: Table) -> int:
    return int(connection.execute(select(func.count()).select_from(table)).scalar_one())


def table_contents(connection: Connection, table: Table) -> Iterator[ContentsRow]:
    """A table's rows. People are said as in the asking room.

    Each says in `who` the name that its athlete has now.
    """
    names = {row.athlete: row.name for row in connection.execute(select(athletes))}
    made = _maker(table, asking_room(connection), names)
    place = _placing(table)
    order = _READ_IN_ORDER.get(table.name)
    if order is None:
        yield from _by_athlete(connection, table, names, made, place)
        return
    keys = [_in_c(connection, table.c[name]) for name in order]
    asked = _asked(table).order_by(*keys).execution_options(yield_per=_AT_ONCE)
    rows = map(made, connection.execute(asked))
    for _, equal in groupby(rows, key=itemgetter(*order)):
        yield from sorted(equal, key=place)


def _by_athlete(
    connection: Connection,
    table: Table,
    names: dict[str, str],
    made: Callable[[Iterable[Any]], ContentsRow],
    place: Callable[[ContentsRow], Any],
) -> Iterator[ContentsRow]:
    """The rows of a table whose keys begin with an athlete, one athlete after the other."""
    room = asking_room(connection)
    order = {entry: _person_place(said_in(room, entry), name) for entry, name in names.items()}
    for entry in sorted(order, key=lambda one: order[one]):
        asked = _asked(table).where(table.c.athlete == entry)
        yield from sorted(map(made, connection.execute(asked)), key=place)


def _asked(table: Table) -> Select[Any]:
    """How hard a class was is said as it counts now: another book needs no change for it."""
    asked = select(*_columns(table))
    return asked.select_from(SEEN_WITH_EFFORT) if table is seen else asked


def _columns(table: Table) -> list[ColumnElement[Any]]:
    out = _WORKED_OUT.get(table.name, ())
    columns: list[ColumnElement[Any]] = [one for one in table.columns if one.name not in out]
    return [*columns, EFFORT] if table is seen else columns


def _in_c(connection: Connection, column: Column[Any]) -> Any:
    """In the order of the letters' numbers, as SQLite and Python have it."""
    text = connection.dialect.name == "postgresql" and column.type.python_type is str
    return column.collate("C") if text else column


def _maker(
    table: Table, room: str, names: dict[str, str]
) -> Callable[[Iterable[Any]], ContentsRow]:
    """What makes a value of a row as it is read."""
    columns = [column.key or "" for column in _columns(table)]
    people = [name for name in _PEOPLE if name in columns]

    def made(row: Iterable[Any]) -> ContentsRow:
        values = dict(zip(columns, row, strict=True))
        who = names.get(values.get("athlete", ""), "")
        for name in people:
            values[name] = said_in(room, values[name])
        values["who"] = who
        return values

    return made


def _placing(table: Table) -> Callable[[ContentsRow], Any]:
    """By what a table's rows are put in order."""
    keys = [
        part
        for column in table.primary_key.columns
        for part in _SAID.get(column.name, (column.name,))
    ]

    def place(row: ContentsRow) -> tuple[Any, ...]:
        return tuple(
            _person_place(row[key], row["who"]) if key in _PEOPLE else row[key] for key in keys
        )

    return place


def _person_place(said: str, who: str) -> tuple[str, str]:
    """Ids of before were made of names: those that say nothing stand where they would have."""
    ident = said.rpartition("/")[2]
    return (file_safe(who) if is_drawn(ident) else ident, said)
