"""The book on a server: its tables, its one writer at a time, and what else is there."""

import re

from sqlalchemy import Connection, Engine, inspect, select, text

from classclock.book.tables.book_lock import WAIT_S, Holder
from classclock.book.tables.schema import VERSION, metadata, rooms
from classclock.book.tables.server_address import read_address, server_engine
from classclock.book.under_way import NOW

_OUR_LOCK = 0x636C6173
"""PostgreSQL's advisory lock that one writer of the book holds."""
_WHO_WRITES = """
    SELECT application_name, backend_start
    FROM pg_locks JOIN pg_stat_activity USING (pid)
    WHERE locktype = 'advisory' AND granted AND objid = :lock
    AND database = (SELECT oid FROM pg_database WHERE datname = current_database())
"""
"""The name that its holder's connection goes by, and when that began."""


def engine_for(address: str, room: str) -> Engine:
    """What connects a room to the book at this address, and goes by the room and its command there.

    Raises:
        AddressError: it is no address of a book.
        ImportError: the driver isn't installed.
    """
    return server_engine(
        read_address(address),
        connect_timeout=round(WAIT_S),
        options=f"-csearch_path={schema_name(VERSION)} -clock_timeout={round(WAIT_S * 1000)}",
        application_name=f"classclock {room} {NOW.command}",
    )


def is_made(connection: Connection) -> bool:
    """Whether the tables of this version are there: all of them are made at once."""
    return inspect(connection).has_table(rooms.name, schema=schema_name(VERSION))


def make_tables(connection: Connection) -> None:
    connection.execute(text(f"CREATE SCHEMA IF NOT EXISTS {schema_name(VERSION)}"))
    metadata.create_all(connection)


def keep_others_out(connection: Connection) -> None:
    """Be the one that writes, until the end of the transaction."""
    connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _OUR_LOCK})


def who_writes(connection: Connection) -> tuple[Holder, str]:
    """Who keeps others out, and the name of its room's folder: nobody, where it is let go."""
    row = connection.execute(text(_WHO_WRITES), {"lock": _OUR_LOCK}).first()
    _, room, command = f"{row[0] if row else ''}  ".split(" ", 2)
    since = row[1].isoformat() if row and row[1] else ""
    asked = select(rooms.c.called).where(rooms.c.room == room)
    called = connection.execute(asked).scalar() if room else ""
    return Holder(command.strip(), since), called or room


def drop_older(connection: Connection) -> None:
    """Take the tables of older versions away."""
    for version in range(1, VERSION):
        connection.execute(text(f"DROP SCHEMA IF EXISTS {schema_name(version)} CASCADE"))


def later_schemas(connection: Connection) -> tuple[str, ...]:
    """On a server the books of a later classclock: they hold what this one erases."""
    if connection.dialect.name != "postgresql":
        return ()
    found = inspect(connection).get_schema_names()
    numbers = (re.fullmatch(r"classclock_v(\d+)", name, re.ASCII) for name in found)
    return tuple(sorted(one[0] for one in numbers if one and int(one[1]) > VERSION))


def schema_name(version: int) -> str:
    """On a server each version of the book has a schema of its own; older ones are kept."""
    return f"classclock_v{version}"
