"""The book as it stands at one moment, for as long as it is read; nobody waits for that."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from typing import Any

from sqlalchemy import Connection, create_engine
from sqlalchemy.pool import StaticPool

from classclock.book.tables.opening import Book
from classclock.machine.opening import open_raw
from classclock.machine.replacing import take_away

_COPY = "book-being-copied.sqlite"
"""Beside the book: whoever is erased goes from there too, should it ever be left."""


@contextmanager
def unchanging(book: Book) -> Iterator[Connection]:
    """A connection that reads what is there now, whatever is written meanwhile.

    A server keeps what was there for whoever reads it. A file is copied, since nobody could write
    in one that is being read.

    Raises:
        BookError, BookHeldError: the book can't be read.
        OSError: it can't be copied.
    """
    if book.unshared:
        with book.reading() as connection:
            yield connection
        return
    if book.engine.dialect.name == "postgresql":
        with book.reading() as connection:
            yield connection.execution_options(isolation_level="REPEATABLE READ")
        return
    path = book.folder / _COPY
    take_away(path)
    try:
        os.close(open_raw(path, os.O_CREAT | os.O_RDWR))  # for this account alone
        with closing(sqlite3.connect(path, check_same_thread=False)) as copy:
            copy.execute("PRAGMA synchronous = OFF")
            with book.reading() as connection:
                kept: Any = connection.connection.dbapi_connection
                kept.backup(copy)
            engine = create_engine("sqlite://", creator=lambda: copy, poolclass=StaticPool)
            with Book(book.folder, engine, book.room, unshared=True).reading() as connection:
                yield connection
    finally:
        take_away(path)
