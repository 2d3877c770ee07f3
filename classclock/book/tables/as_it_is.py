"""The book as whoever asked last has left it: nothing is written, and nobody is kept waiting.

So it is asked by who only follows a class: the class itself brings the book up to date.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Engine, create_engine

from classclock.book.files.changes_file import NAME as CHANGES
from classclock.book.files.whole_changes_file import room_of
from classclock.book.tables.book_error import BookError
from classclock.book.tables.book_file import FILE
from classclock.book.tables.book_lock import WAIT_S
from classclock.book.tables.opening import Book
from classclock.book.tables.schema import VERSION
from classclock.book.tables.server_address import (
    VARIABLE,
    AddressError,
    read_address,
    server_engine,
)
from classclock.book.tables.server_tables import schema_name


@contextmanager
def book_as_it_is(folder: Path) -> Iterator[Book]:
    """The club's book, only to be read.

    Raises:
        BookError: it isn't there yet, is another version's, or can't be reached.
        ChangesDamagedError: the changes don't say which room it is.
        OSError: they can't be read.
    """
    if not (folder / CHANGES).exists():
        raise BookError("there is no book yet: whoever runs a class makes it")
    address = os.environ.get(VARIABLE)
    engine = _on_the_server(address) if address else _in_the_folder(folder / FILE)
    book = Book(folder, engine, room_of(folder))
    try:
        yield book
    finally:
        book.close()


def _in_the_folder(path: Path) -> Engine:
    where = f"{path.resolve().as_uri()}?mode=ro"

    def connect() -> sqlite3.Connection:
        return sqlite3.connect(where, uri=True, timeout=WAIT_S, check_same_thread=False)

    try:
        connection = connect()
        try:
            version: int = connection.execute("PRAGMA user_version").fetchone()[0]
        finally:
            connection.close()
    except sqlite3.Error as error:
        raise BookError(f"the book at {path} can't be read ({error}): bests aren't shown") from None
    if version != VERSION:
        whose = "a newer" if version > VERSION else "an older"
        raise BookError(f"{path} was written by {whose} classclock: bests aren't shown")
    return create_engine("sqlite://", creator=connect, hide_parameters=True)


def _on_the_server(address: str) -> Engine:
    try:
        return server_engine(
            read_address(address),
            connect_timeout=round(WAIT_S),
            options=f"-csearch_path={schema_name(VERSION)} -cdefault_transaction_read_only=on",
        )
    except AddressError as error:
        raise BookError(str(error)) from None
    except ImportError:
        raise BookError(
            "a book on PostgreSQL needs its driver: pip install 'classclock[postgresql]'"
        ) from None
