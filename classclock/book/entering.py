"""Changes written down and brought into the book at once: on a server other rooms have them then.

Ended by ctrl+c in between, everything is as it was.
"""

from collections.abc import Sequence
from datetime import datetime

from msgspec import Struct

from classclock.book.changing import strike, take_back, write_down
from classclock.book.files.changes import Change
from classclock.book.tables.book_error import BookError
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.keeping import now_ns
from classclock.book.tables.opening import Book
from classclock.machine.interrupting import uninterrupted


class PutIn(Struct, frozen=True):
    """What became of changes that are written down."""

    change: Change
    """The first of them, as it is written down; of what was taken back, that."""
    why_not_yet: str = ""
    """Why they aren't in the book yet, in words: they go in with the room's next command."""


def put_in(book: Book, more: Sequence[Change], now: datetime) -> PutIn:
    """Write changes down, at least one, and bring them into the book.

    Raises: as `write_down` does.
    """
    lines: Sequence[Change] = ()
    try:
        with uninterrupted():
            lines = write_down(book.folder, more, now)
        return PutIn(lines[0], bring_in(book))
    except KeyboardInterrupt:
        _strike(book, lines)
        raise


def take_back_in(book: Book, now: datetime, number: int | None = None) -> PutIn:
    """Take a change back, as `take_back` does, in the book too.

    Raises: as `take_back` does.
    """
    lines: Sequence[Change] = ()
    try:
        with uninterrupted():
            meant, line = take_back(book.folder, now, number)
            lines = (line,)
        return PutIn(meant, bring_in(book))
    except KeyboardInterrupt:
        _strike(book, lines)
        raise


def bring_in(book: Book, *, thorough: bool = False) -> str:
    """Bring what was written into the book; why that can't be yet, in words, empty where it is."""
    try:
        catch_up(book, now_ns(), thorough=thorough)
    except BookError as error:
        return str(error)
    except OSError as error:
        return error.strerror or type(error).__name__
    return ""


def _strike(book: Book, lines: Sequence[Change]) -> None:
    """As if they had never been written down; what of them is in the book already goes again."""
    if lines:
        with uninterrupted():
            strike(book.folder, {line.n for line in lines})
            bring_in(book)
