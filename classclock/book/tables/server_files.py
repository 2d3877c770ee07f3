"""A server's files of the book's tables, written anew without the rows that were deleted."""

from typing import Any

from sqlalchemy import Connection, Table, text
from sqlalchemy.exc import OperationalError

from classclock.book.tables.book_lock import WAIT_S
from classclock.book.tables.schema import metadata
from classclock.book.tables.server_address import is_locked

TRIES = 10
"""So often it is tried, with half a second between, while somebody reads what was there before."""
LOCK_WAIT_MS = round(WAIT_S * 1000)


def written_anew(connection: Connection, *tables: Table) -> bool:
    """Have PostgreSQL write tables anew (VACUUM FULL); whether nothing deleted is left.

    Every table of the book, unless some are named.

    It keeps deleted rows for whoever began to read before they were, and waits for who writes.
    """
    connection.execution_options(isolation_level="AUTOCOMMIT")
    connection.execute(text(f"SET lock_timeout = {LOCK_WAIT_MS}"))
    tries = TRIES
    for table in tables or metadata.sorted_tables:
        while _kept_rows(connection, table.name):
            tries -= 1
            if tries <= 0:
                return False
            connection.execute(text("SELECT pg_sleep(0.5)"))
    return True


def _kept_rows(connection: Connection, table: str) -> int:
    """Write a table anew; how many deleted rows it has still, at least 1 where it is locked."""
    kept: list[int] = []

    def told(notice: Any) -> None:
        # Of one table: how many pages and rows, and in detail how many dead ones had to stay.
        number = (notice.message_detail or "").partition(" ")[0]
        if number.isdecimal():
            kept.append(int(number))

    server: Any = connection.connection.dbapi_connection
    server.add_notice_handler(told)
    try:
        connection.execute(text(f"VACUUM (FULL, VERBOSE) {table}"))
    except OperationalError as error:
        if not is_locked(error):
            raise
        return 1
    finally:
        server.remove_notice_handler(told)
    return sum(kept)
