"""The book asked from a screen's thread: an answer, or why there is none in words."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from classclock.book.files.changes_file import ChangesDamagedError

if TYPE_CHECKING:
    from sqlalchemy import Connection

Answer = TypeVar("Answer")


def answer_or_why(folder: Path, ask: "Callable[[Connection], Answer]") -> tuple[Answer | None, str]:
    """Ask the club's book, brought up to date; never raises for the book's sake.

    Loads sqlalchemy, and takes its time: for a thread.
    """
    from classclock.book.tables.book_error import BookError  # noqa: PLC0415  180 ms with the next
    from classclock.book.tables.keeping import kept_book, now_ns  # noqa: PLC0415

    try:
        with kept_book(folder, now_ns()) as (book, caught), book.reading() as connection:
            return ask(connection), "; ".join(caught.notices[:1])
    except (BookError, ChangesDamagedError) as error:
        return None, str(error)
    except OSError as error:
        return None, f"the book can't be read ({error.strerror or type(error).__name__})"
