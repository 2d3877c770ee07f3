"""What a club's athletes have lifted, read from its results once, by whoever asks first."""

from collections.abc import Callable
from pathlib import Path
from threading import Lock

from classclock.book.lift_records import lift_history, read_lifts
from classclock.plan.club import Club
from classclock.plan.model import Plan
from classclock.strength.class_loads import ClassLoads, LiftHistory, has_lifts


class LiftReading:
    """May be asked from any thread: with years of results reading takes a moment."""

    def __init__(self, results: Path) -> None:
        self._results = results
        self._lock = Lock()
        self._history: LiftHistory | None = None

    def history(self) -> LiftHistory:
        """Everything that can be read; a results file that can't be is left out."""
        with self._lock:
            if self._history is None:
                classes, _ = read_lifts(self._results)
                self._history = lift_history(classes)
            return self._history


def loads_reader(plan: Plan, club: Club, reading: LiftReading) -> Callable[[], ClassLoads] | None:
    """What works out who lifts what; None for a plan in which nobody lifts."""
    if not has_lifts(plan):
        return None
    return lambda: ClassLoads(plan, club.equipment, reading.history())
