"""What a club's athletes have lifted, read once, by whoever asks first."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from classclock.book.files.any_records import has_records
from classclock.book.files.changes_file import ChangesDamagedError
from classclock.plan.model import Plan
from classclock.plan.settings.club import Club

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads, LiftHistory


def has_lifts(plan: Plan) -> bool:
    """Whether anything is lifted for which records matter."""
    return any(segment.lift is not None for segment in plan.segment)


class LiftReading:
    """May be asked from any thread: with years of results reading takes a moment."""

    def __init__(self, folder: Path, before: str = "", *, as_it_is: bool = False) -> None:
        """`folder` is the club's; `before`, RFC 3339, is when a class was opened that runs already.

        What was lifted in it changes no load of it. `as_it_is`: for who only looks on, and brings
        no book up to date.
        """
        self._as_it_is = as_it_is
        self._folder = folder
        self._before = datetime.fromisoformat(before).astimezone() if before else None
        self._lock = Lock()
        self._history: LiftHistory | None = None

    def history(self) -> "LiftHistory":
        """Everything that the book knows; where it can't be asked, what the club's files say."""
        with self._lock:
            if self._history is None:
                self._history = self._in_book() or self._in_files()
            return self._history

    def _in_book(self) -> "LiftHistory | None":
        """None where there is no book to ask: a club that remembers nothing is left as it is."""
        if not has_records(self._folder):
            return None
        from classclock.book.asking.recorded_loads import recorded_history  # noqa: PLC0415  lifts only
        from classclock.book.tables.as_it_is import book_as_it_is  # noqa: PLC0415  sqlalchemy: 180 ms
        from classclock.book.tables.book_error import BookError  # noqa: PLC0415  as above
        from classclock.book.tables.keeping import caught_up  # noqa: PLC0415  as above

        opens = book_as_it_is if self._as_it_is else caught_up
        try:
            with opens(self._folder) as book, book.reading() as connection:
                return recorded_history(connection, before=self._before)
        except (BookError, ChangesDamagedError, OSError):
            return None

    def _in_files(self) -> "LiftHistory":
        """A results file that can't be read is left out."""
        from classclock.book.asking.club_lifts import club_lifts  # noqa: PLC0415  lifts only
        from classclock.book.asking.lift_records import lift_history  # noqa: PLC0415  as above

        classes, _ = club_lifts(self._folder, self._before)
        return lift_history(classes)


def loads_reader(
    plan: Plan, club: Club, reading: LiftReading
) -> "Callable[[Plan], ClassLoads] | None":
    """What works out who lifts what in the plan as it stands; None where nobody lifts."""
    if not has_lifts(plan):
        return None
    from classclock.strength.class_loads import ClassLoads  # noqa: PLC0415  as above

    return lambda plan: ClassLoads(plan, club.equipment, reading.history())
