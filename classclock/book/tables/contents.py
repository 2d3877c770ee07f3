"""All that the book knows, as plain values in a fixed order: for exports, and to compare books."""

from typing import Any

from sqlalchemy import Connection, Table, select

from classclock.book.people_ids import is_drawn, said_in
from classclock.book.tables.efforts_said import EFFORT, SEEN_WITH_EFFORT
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import (
    athletes,
    bests,
    classes,
    lifts,
    results,
    seen,
    set_bests,
)
from classclock.machine.file_names import file_safe

TABLES = (athletes, classes, seen, results, lifts, bests, set_bests)
_SAID = {"terms": ("modification", "loads", "work", "team")}
"""What stands for a key that is worked out, where rows are put in order."""
_PEOPLE = ("athlete", "person")


def book_contents(connection: Connection) -> dict[str, list[dict[str, Any]]]:
    """Each table's rows, in the order of their keys, whatever the storage; people by their names.

    People are said as in the asking room. Each row says in `who` the name that its athlete has now.
    """
    room = asking_room(connection)
    names = {row.athlete: row.name for row in connection.execute(select(athletes))}
    return {table.name: _contents(connection, table, room, names) for table in TABLES}


def _contents(
    connection: Connection, table: Table, room: str, names: dict[str, str]
) -> list[dict[str, Any]]:
    rows = []
    # How hard a class was is said as it counts now, so that another book needs no change for it.
    columns = (*(one for one in seen.c if one.name != "effort"), EFFORT)
    asked = select(*columns).select_from(SEEN_WITH_EFFORT) if table is seen else select(table)
    for row in connection.execute(asked).mappings():
        who = names.get(row.get("athlete", ""), "")
        said = {key: said_in(room, row[key]) for key in _PEOPLE if key in row}
        rows.append({**row, **said, "who": who})
    keys = [
        part
        for column in table.primary_key.columns
        for part in _SAID.get(column.name, (column.name,))
    ]
    return sorted(rows, key=lambda row: tuple(_place(row, key) for key in keys))


def _place(row: dict[str, Any], key: str) -> Any:
    """Ids of before were made of names: those that say nothing stand where they would have."""
    value = row[key]
    if key in _PEOPLE:
        ident = value.rpartition("/")[2]
        return (file_safe(row["who"]) if is_drawn(ident) else ident, value)
    return value
