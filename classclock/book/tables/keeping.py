"""The club's book, opened and brought up to date for one question or one change."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from classclock.book.files.changes import read_changes
from classclock.book.tables.catching_up import CaughtUp, catch_up, clear
from classclock.book.tables.opening import FILE, Book, BookError, on_a_server, open_book, put_aside
from classclock.clock.source import local_now


def now_ns() -> int:
    """Now, in nanoseconds since 1970, to the millisecond."""
    return int(local_now().timestamp() * 1000) * 1_000_000


@contextmanager
def kept_book(folder: Path, now_ns: int) -> Iterator[tuple[Book, CaughtUp]]:
    """The book as the files say now. `now_ns`: nanoseconds since 1970.

    Raises:
        BookError: it can't be opened or reached.
        ChangesDamagedError: a line of the changes can't be read.
        OSError: the folder can't be read or written to.
    """
    book = open_book(folder)
    try:
        yield book, catch_up(book, now_ns)
    finally:
        book.close()


def make_anew(folder: Path, now_ns: int) -> CaughtUp:
    """Make the book again from results files and changes; on a server this room's part of it.

    Raises: as `kept_book` does.
    """
    read_changes(folder)  # what can't be read is said before anything is thrown away
    if on_a_server():
        book = open_book(folder)
        try:
            clear(book)
            return catch_up(book, now_ns)
        finally:
            book.close()
    _throw_away(folder)
    with kept_book(folder, now_ns) as (_, caught):
        return caught


def _throw_away(folder: Path) -> None:
    """A damaged book is put aside instead: somebody may want to look at it."""
    try:
        open_book(folder).close()
    except BookError:
        put_aside(folder, "damaged")
    else:
        (folder / FILE).unlink(missing_ok=True)
