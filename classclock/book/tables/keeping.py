"""The club's book, opened and brought up to date for one question or one change."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from classclock.book.tables.book_lock import BookHeldError
from classclock.book.tables.catching_up import CaughtUp, catch_up
from classclock.book.tables.opening import Book, forget_deleted, on_a_server, open_book
from classclock.book.tables.read_only import book_in_memory, can_only_be_read
from classclock.book.tables.schema import changes, results
from classclock.book.tables.server_files import written_anew
from classclock.clock.source import local_now


def now_ns() -> int:
    """Now, in nanoseconds since 1970, to the millisecond."""
    return int(local_now().timestamp() * 1000) * 1_000_000


@contextmanager
def kept_book(folder: Path, now_ns: int, *, whole: bool = False) -> Iterator[tuple[Book, CaughtUp]]:
    """The book as the files say now. `now_ns`: nanoseconds since 1970.

    Where somebody else writes in it for too long, it is as it stands, and a notice says so; but if
    it is to be `whole`, for who is about to change it, that is an error.

    Raises:
        BookHeldError: somebody else writes in a book that is to be whole. It is an OSError.
        BookError: it can't be opened or reached.
        ChangesDamagedError: a line of the changes can't be read.
        OSError: the folder can't be read or written to.
    """
    book, lacking = _opened(folder)
    try:
        yield book, CaughtUp(notices=(lacking,)) if lacking else _contact(book, now_ns, whole=whole)
    finally:
        book.close()


@contextmanager
def caught_up(folder: Path) -> Iterator[Book]:
    """The book as the files say now, for a question.

    Raises: as `kept_book` does.
    """
    with kept_book(folder, now_ns()) as (book, _):
        yield book


def _contact(book: Book, now_ns: int, *, whole: bool) -> CaughtUp:
    try:
        return _up_to_date(book, now_ns)
    except BookHeldError as error:
        if whole:
            raise
        lacks = f"What is new isn't in the book yet: {error.strerror}"
        return CaughtUp(notices=(lacks,))


def _up_to_date(book: Book, now_ns: int) -> CaughtUp:
    """Bring the book up to date; on a server what other rooms have ordered comes first."""
    if not on_a_server():
        return _caught_up(book, now_ns)
    from classclock.book.erasing.carrying import carry_out, forget_names  # noqa: PLC0415  erasing knows the tables

    done = carry_out(book, local_now())
    caught = _caught_up(book, now_ns, thorough=done.orders > 0)
    if done.orders:
        with book.reading() as connection:
            written_anew(connection, changes, results)  # where this room may have named them
    forget_names(book)
    return CaughtUp(caught.classes, (*done.notices, *caught.notices))


def _caught_up(book: Book, now_ns: int, *, thorough: bool = False) -> CaughtUp:
    caught = catch_up(book, now_ns, thorough=thorough)
    if caught.forgot:  # an erasure that couldn't be brought in when it was made
        forget_deleted(book)
    return caught


def _opened(folder: Path) -> tuple[Book, str]:
    """The book, and why it may lack something."""
    if not can_only_be_read(folder):
        return open_book(folder), ""
    if on_a_server():
        return open_book(folder), (
            f"{folder} can only be read: what was done here since may not be in the book yet"
        )
    return book_in_memory(folder), ""
