"""The club's book, opened and brought up to date for one question or one change."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from classclock.book.files.changes import read_changes
from classclock.book.tables.catching_up import CaughtUp, catch_up, clear
from classclock.book.tables.opening import (
    FILE,
    Book,
    BookError,
    on_a_server,
    open_book,
    put_aside,
)
from classclock.book.tables.read_only import book_in_memory, can_only_be_read
from classclock.book.tables.schema import changes, results
from classclock.book.tables.server_files import written_anew
from classclock.clock.source import local_now
from classclock.machine.replacing import take_away


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
    book, lacking = _opened(folder)
    try:
        yield book, CaughtUp(notices=(lacking,)) if lacking else _contact(book, now_ns)
    finally:
        book.close()


@contextmanager
def caught_up(folder: Path) -> Iterator[Book]:
    """The book as the files say now, for a question.

    Raises: as `kept_book` does.
    """
    with kept_book(folder, now_ns()) as (book, _):
        yield book


def _contact(book: Book, now_ns: int) -> CaughtUp:
    """Bring the book up to date; on a server what other rooms have ordered comes first."""
    if not on_a_server():
        return catch_up(book, now_ns)
    from classclock.book.erasing.carrying import carry_out, forget_names  # noqa: PLC0415  erasing knows the tables

    done = carry_out(book, local_now())
    caught = catch_up(book, now_ns, thorough=done.orders > 0)
    if done.orders:
        with book.reading() as connection:
            written_anew(connection, changes, results)  # where this room may have named them
    forget_names(book)
    return CaughtUp(caught.classes, (*done.notices, *caught.notices))


def _opened(folder: Path) -> tuple[Book, str]:
    """The book, and why it may lack something."""
    if not can_only_be_read(folder):
        return open_book(folder), ""
    if on_a_server():
        return open_book(folder), (
            f"{folder} can only be read: what was done here since may not be in the book yet"
        )
    return book_in_memory(folder), ""


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
        take_away(folder / FILE)
