"""The book of a club whose folder can only be read: in memory, from what the folder holds."""

import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from sqlalchemy import create_engine
from sqlalchemy.pool import StaticPool

from classclock.book.files.changes_file import NAME as CHANGES
from classclock.book.files.whole_changes_file import room_of
from classclock.book.tables.book_file import FILE
from classclock.book.tables.opening import Book
from classclock.book.tables.schema import VERSION, metadata


def can_only_be_read(folder: Path) -> bool:
    """Whether this account may look into the club's folder, and may not write its book there."""
    book = folder / FILE
    return folder.is_dir() and not all(
        os.access(path, os.W_OK) for path in (folder, book) if path.exists()
    )


def book_in_memory(folder: Path) -> Book:
    """A copy of the folder's book, or an empty one; catching up brings it to what the files say.

    Raises:
        ChangesDamagedError: the changes don't say which room it is.
        OSError: they can't be read.
    """
    kept = sqlite3.connect(":memory:", check_same_thread=False)
    with suppress(sqlite3.Error):  # whatever is wrong with it: all of it is in the files
        _copy(folder / FILE, kept)
    engine = create_engine(
        "sqlite://", creator=lambda: kept, poolclass=StaticPool, hide_parameters=True
    )
    metadata.create_all(engine)
    room = room_of(folder) if (folder / CHANGES).exists() else os.urandom(8).hex()
    return Book(folder, engine, room, unshared=True)


def _copy(path: Path, into: sqlite3.Connection) -> None:
    with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as book:
        if book.execute("PRAGMA user_version").fetchone() == (VERSION,):
            book.backup(into)
