"""The book in a file of the club's folder: made, told by its version, put aside."""

import os
import sqlite3
from functools import partial
from pathlib import Path

from sqlalchemy import URL, Engine, create_engine, event, text
from sqlalchemy.exc import DisconnectionError
from sqlalchemy.pool import ConnectionPoolEntry

from classclock.book.tables.book_error import BookError, DamagedBookError
from classclock.book.tables.book_lock import WAIT_S, BookHeldError, held_words, holder_in
from classclock.book.tables.schema import VERSION, metadata
from classclock.machine.opening import open_raw
from classclock.machine.replacing import put_in_place

FILE = "book.sqlite"
BEING_MADE = "book-being-made.sqlite"
BUSY = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
"""What SQLite says where somebody else has the file for too long."""


def kept_versions(folder: Path) -> tuple[Path, ...]:
    """Books that were put aside: of an older version, or damaged."""
    return tuple(sorted(folder.glob("book-*.sqlite")))


def file_engine(path: Path, *, whole_or_nothing: bool = False) -> Engine:
    """What connects to a book's file.

    `whole_or_nothing`: half of it is never used; who made it sees its end onto the disk.
    """
    engine = create_engine(
        URL.create("sqlite", database=str(path)),
        connect_args={"timeout": WAIT_S},
        hide_parameters=True,
    )
    event.listen(engine, "connect", _forget_fully)
    event.listen(engine, "connect", partial(_remember_which, path))
    event.listen(engine, "checkout", partial(_still_that_one, path))
    if whole_or_nothing:
        event.listen(engine, "connect", _sync_at_the_end)
    return engine


def put_aside(folder: Path, name: str) -> None:
    """Keep the book's file under another name, `book-NAME.sqlite`, so that a new one is made."""
    path = folder / FILE
    if path.exists():
        put_in_place(path, _free(folder, name))


def _free(folder: Path, name: str) -> Path:
    path, number = folder / f"book-{name}.sqlite", 1
    while path.exists():
        number += 1
        path = folder / f"book-{name}-{number}.sqlite"
    return path


def make_ready(folder: Path, path: Path) -> None:
    """Leave a book of this version there, empty if it is a new one."""
    if path.exists():
        version = version_of(path)
        if version > VERSION:
            raise newer(path)
        if version == VERSION:
            return
        put_aside(folder, f"v{version}")
    make_empty(path)


def newer(path: Path) -> BookError:
    """A book that only a later classclock can read."""
    return BookError(
        f"{path} was written by a newer classclock: update classclock, or move that file "
        "away and a new book is made from the results files"
    )


def make_empty(path: Path) -> None:
    """An empty book of this version."""
    os.close(open_raw(path, os.O_CREAT | os.O_RDWR))
    engine = file_engine(path)
    with engine.begin() as connection:
        metadata.create_all(connection)
        connection.execute(text(f"PRAGMA user_version = {VERSION}"))
    engine.dispose()


def _sync_at_the_end(connection: sqlite3.Connection, _: object) -> None:
    """Half of it is never used."""
    connection.execute("PRAGMA synchronous = OFF")


def version_of(path: Path) -> int:
    """The version of a book's file.

    Raises:
        DamagedBookError: it is none.
        BookHeldError: somebody else has it for too long.
    """
    connection = sqlite3.connect(path)
    try:
        version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    except sqlite3.DatabaseError as error:
        if error.sqlite_errorcode in BUSY:
            raise BookHeldError(path.parent, held_words(holder_in(path.parent))) from None
        raise DamagedBookError(
            f"{path} is damaged: `classclock book rebuild` puts it aside and makes it anew"
        ) from None
    finally:
        connection.close()
    return version


def _remember_which(path: Path, _: object, record: ConnectionPoolEntry) -> None:
    record.info["file"] = _which(path)


def _still_that_one(path: Path, _: object, record: ConnectionPoolEntry, __: object) -> None:
    """A book that was made anew meanwhile is another file of the same name: that is opened then.

    Raises DisconnectionError, to which the pool listens.
    """
    there = _which(path)
    if there is not None and there != record.info["file"]:
        raise DisconnectionError


def _which(path: Path) -> tuple[int, int] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _forget_fully(connection: sqlite3.Connection, _: object) -> None:
    """What is deleted is overwritten: nobody who was erased can be read from free pages."""
    connection.execute("PRAGMA secure_delete = ON")
    connection.execute("PRAGMA cache_size = -65536")
