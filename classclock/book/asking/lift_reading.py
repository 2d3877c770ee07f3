"""What a club's athletes have lifted, read from its files once, by whoever asks first."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from classclock.plan.model import Plan
from classclock.plan.settings.club import Club

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads, LiftHistory


def has_lifts(plan: Plan) -> bool:
    """Whether anything is lifted for which records matter."""
    return any(segment.lift is not None for segment in plan.segment)


class LiftReading:
    """May be asked from any thread: with years of results reading takes a moment."""

    def __init__(self, folder: Path, before: str = "") -> None:
        """`folder` is the club's; `before`, RFC 3339, is when a class was opened that runs already.

        What was lifted in it changes no load of it.
        """
        self._folder = folder
        self._before = datetime.fromisoformat(before).astimezone() if before else None
        self._lock = Lock()
        self._history: LiftHistory | None = None

    def history(self) -> "LiftHistory":
        """Everything that can be read; a results file that can't be is left out."""
        from classclock.book.asking.club_lifts import club_lifts  # noqa: PLC0415  lifts only
        from classclock.book.asking.lift_records import lift_history  # noqa: PLC0415  as above

        with self._lock:
            if self._history is None:
                classes, _ = club_lifts(self._folder, self._before)
                self._history = lift_history(classes)
            return self._history


def loads_reader(
    plan: Plan, club: Club, reading: LiftReading
) -> "Callable[[Plan], ClassLoads] | None":
    """What works out who lifts what in the plan as it stands; None where nobody lifts."""
    if not has_lifts(plan):
        return None
    from classclock.strength.class_loads import ClassLoads  # noqa: PLC0415  as above

    return lambda plan: ClassLoads(plan, club.equipment, reading.history())
