"""The book made anew from the files; ended in the middle, the one that was there stays."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from classclock.book.files.whole_changes_file import read_changes
from classclock.book.tables.book_error import DamagedBookError
from classclock.book.tables.book_file import (
    BEING_MADE,
    FILE,
    file_engine,
    make_empty,
    newer,
    put_aside,
    version_of,
)
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.catching_up import CaughtUp, catch_up
from classclock.book.tables.opening import Book, on_a_server, open_book, room_named
from classclock.book.tables.schema import VERSION
from classclock.machine.replacing import put_in_place, take_away
from classclock.machine.syncing import sync_file


def make_anew(folder: Path, now_ns: int) -> CaughtUp:
    """Make the book again from results files and changes; on a server this room's part of it.

    Ended in the middle, a file stays as it was; on a server each class does, or is anew.

    Raises: as `kept_book` does.
    """
    read_changes(folder)  # what can't be read is said before anything is thrown away
    if on_a_server():
        book = open_book(folder)
        try:
            return catch_up(book, now_ns, anew=True)
        finally:
            book.close()
    with _new_file(folder) as book:
        return catch_up(book, now_ns)


@contextmanager
def _new_file(folder: Path) -> Iterator[Book]:
    """An empty book in a file, which takes the place of the one that is there once all went well.

    One that is damaged is put aside then: somebody may want to look at it.

    Raises:
        BookError: the one that is there is a newer classclock's.
        BookHeldError, OSError: it can't be put in place.
    """
    path, made = folder / FILE, folder / BEING_MADE
    damaged = _is_damaged(path)
    take_away(made)
    make_empty(made)
    engine = file_engine(made, whole_or_nothing=True)
    book = Book(folder, engine, room_named(folder), unshared=True)
    try:
        yield book
        book.close()
        sync_file(made)
        with book_lock(folder):
            if damaged:
                put_aside(folder, "damaged")
            # What a power cut left of a change to the old one isn't to be put into the new one.
            take_away(folder / f"{FILE}-journal")
            put_in_place(made, path)
    finally:
        book.close()
        take_away(made)


def _is_damaged(path: Path) -> bool:
    """Raises BookError where it is a newer classclock's."""
    try:
        if path.exists() and version_of(path) > VERSION:
            raise newer(path)
    except DamagedBookError:
        return True
    return False
