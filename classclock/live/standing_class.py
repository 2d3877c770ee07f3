"""A class as it stands: what happened so far, its clock, and who lifts what. Only to be looked at.

A running class is one, and so is a class that another process runs and this one follows: what the
room sees is made of nothing more.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

from classclock.clock.class_clock import ClassClock
from classclock.clock.engine import EngineView
from classclock.plan.model import Plan
from classclock.tally.class_lineup import lineup, partners_now
from classclock.tally.lanes import Lane
from classclock.tally.lineup import Groups
from classclock.tally.record import ClassRecord, Phase

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads


class StandingClass:
    def __init__(
        self,
        clock: ClassClock,
        record: ClassRecord,
        *,
        read_loads: "Callable[[Plan], ClassLoads] | None" = None,
    ) -> None:
        """`read_loads` works out who lifts what in a plan, from files: it may take a moment."""
        self.clock = clock
        self.record = record
        self.loads: ClassLoads | None = None
        """What everybody is to lift, once `plan_loads` has read it."""
        self._read_loads = read_loads
        self._loads_in: Plan | None = None
        """The plan that they were read for."""

    @property
    def phase(self) -> Phase:
        return self.record.phase(self.clock.now())

    def view(self) -> EngineView | None:
        """The segment on the board as the engine needs it; None until it is started."""
        sheet = self.record.sheet
        if sheet is None or self.record.closed:
            return None
        return EngineView(sheet.clock, sheet.timeline, sheet.end(self.clock.now()))

    def lineup(self) -> tuple[Lane, ...]:
        """The lanes of the segment on the board, all heats: as started, or as they would start."""
        return lineup(self.record, self.loads)

    def partners(self) -> Groups:
        """Which lanes of the heat on the board share a bar, by their ids, in their turns."""
        return partners_now(self.record, self.lineup())

    @property
    def loads_unread(self) -> bool:
        """Whether `plan_loads` would read files."""
        return self.loads is None and self._read_loads is not None

    def plan_loads(self) -> None:
        """Find out what everybody is to lift in the plan as it stands, unless that is known."""
        while self._read_loads is not None and self._loads_in is not self.record.plan:
            plan = self.record.plan  # it may be fitted while this is read
            self.loads, self._loads_in = self._read_loads(plan), plan
