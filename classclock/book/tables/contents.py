"""All that the book knows, as plain values in a fixed order: for exports, and to compare books."""

from typing import Any

from sqlalchemy import Connection, Table, select

from classclock.book.tables.schema import athletes, bests, classes, lifts, results, seen

TABLES = (athletes, classes, seen, results, lifts, bests)


def book_contents(connection: Connection) -> dict[str, list[dict[str, Any]]]:
    """Each table's rows, in the order of their keys, whatever the storage."""
    return {table.name: table_contents(connection, table) for table in TABLES}


def table_contents(connection: Connection, table: Table) -> list[dict[str, Any]]:
    rows = [dict(row) for row in connection.execute(select(table)).mappings()]
    keys = [column.name for column in table.primary_key.columns]
    return sorted(rows, key=lambda row: tuple(row[key] for key in keys))
