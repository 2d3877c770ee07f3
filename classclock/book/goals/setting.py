"""A goal set or ended from a screen: kept in the book, or why not in words."""

from collections.abc import Callable
from pathlib import Path

from msgspec import Struct

from classclock.book.entering import put_in
from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.files.goal_lines import GoalDropped
from classclock.book.goals.reading import GoalAsked, GoalRead, GoalRefusedError, read_goal
from classclock.book.tables.book_error import BookError
from classclock.book.tables.keeping import kept_book, now_ns
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import all_athletes
from classclock.clock.source import local_now
from classclock.units.loads import Unit


class GoalOutcome(Struct, frozen=True):
    why_not: str = ""
    """Why it isn't kept, or isn't in the book yet; empty where all is well."""
    no_better: GoalRead | None = None
    """What has to be asked about first: their best is as good."""


def set_goal(
    folder: Path, athlete: str, asked: GoalAsked, *, unit: Unit, anyway: bool = False
) -> GoalOutcome:
    """Set a goal of the athlete with this id; `folder` is the club's. For a thread.

    `anyway`: though their best is as good. `unit` is that of bare loads.
    """

    def keep(book: Book) -> GoalOutcome:
        with book.reading() as connection:
            who = next((one for one in all_athletes(connection) if one.id == athlete), None)
            if who is None:
                return GoalOutcome("they are in the book no more")
            today = local_now().date()
            read = read_goal(connection, folder, who, asked, unit=unit, today=today)
        if read.best is not None and not anyway:
            return GoalOutcome(no_better=read)
        return GoalOutcome(put_in(book, [read.line], local_now()).why_not_yet)

    return _kept(folder, keep)


def end_goal(folder: Path, athlete: str, benchmark: str) -> GoalOutcome:
    """End the goal of the athlete with this id on a benchmark. For a thread."""
    day = local_now().date().isoformat()

    def keep(book: Book) -> GoalOutcome:
        line = GoalDropped(athlete=athlete, benchmark=benchmark, day=day)
        return GoalOutcome(put_in(book, [line], local_now()).why_not_yet)

    return _kept(folder, keep)


def _kept(folder: Path, keep: Callable[[Book], GoalOutcome]) -> GoalOutcome:
    try:
        with kept_book(folder, now_ns(), whole=True) as (book, _):
            return keep(book)
    except (GoalRefusedError, BookError, ChangesDamagedError) as error:
        return GoalOutcome(str(error))
    except OSError as error:
        return GoalOutcome(f"not kept: {error.strerror or type(error).__name__}")
