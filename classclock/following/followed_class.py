"""A class that another process runs, as it stands: what the room sees is asked of it.

All of it is read: events, who lifts what, own bests, what was counted. Nothing is written, and no
lock of the book is taken.
"""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.book.asking.lift_reading import LiftReading, loads_reader
from classclock.book.files.journal import Anchor, Journal
from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, MachineSource, TimeSource, WoundSource
from classclock.following.growing_journal import GrowingJournal
from classclock.live.standing_class import StandingClass
from classclock.plan.settings.club import Club
from classclock.records.own_bests import OwnBests
from classclock.tally.record import ClassRecord

if TYPE_CHECKING:
    from classclock.planning.cap_fit import Basis
    from classclock.planning.equipment_offers import EquipmentOffers, Offer


def clock_by(anchor: Anchor) -> ClassClock:
    """The clock of a class that runs in this same start of the machine."""
    if anchor.rate == 1:
        return ClassClock(MachineSource(), anchor.raw - anchor.at * MS)
    wall = datetime.fromisoformat(anchor.wall)
    source = WoundSource(anchor.rate, start=anchor.at * MS, since=anchor.raw, wall=wall)
    return ClassClock(source, 0)


class FollowedClass:
    """Since it was opened, or last taken up again."""

    def __init__(
        self,
        growing: GrowingJournal,
        journal: Journal,
        record: ClassRecord,
        *,
        folder: Path,
        club: Club,
        clock_of: Callable[[Anchor], ClassClock] = clock_by,
    ) -> None:
        """`journal` and `record` are what is there so far; `folder` is the club's."""
        self._growing, self._folder = growing, folder
        self.anchor = journal.anchors[-1]
        self.club = club
        self.started = journal.anchors[0].wall
        self.own_bests = OwnBests()
        self.basis: Basis | None = None
        self._offers: EquipmentOffers | None = None
        loads = loads_reader(record.plan, club, LiftReading(folder, self.started, as_it_is=True))
        self.live = StandingClass(clock_of(self.anchor), record, read_loads=loads)

    @property
    def source(self) -> TimeSource:
        return self.live.clock.source

    def look(self) -> bool:
        """Take what has happened since; whether anything has.

        Raises: as `GrowingJournal.look` does.
        """
        if not self._growing.look() or self._growing.record is None:
            return False
        self.live.record = self._growing.record
        if self.live.loads is not None:
            self.live.plan_loads()
        return True

    def read_ahead(self) -> None:
        """Read who lifts what, and what was counted, where the class needs it. In a thread."""
        if self.live.loads_unread:
            self.live.plan_loads()
        if self.club.inventory and self._offers is None:
            from classclock.live.counted_equipment import offers_of  # noqa: PLC0415  few count

            self._offers = offers_of(self.club, self._folder)

    def read_book(self) -> str:
        """Read everybody's earlier results, as the class has done; what is wrong, in words.

        In a thread: it loads a database.
        """
        from classclock.book.asking.fit_reading import FitQuestion, basis_for  # noqa: PLC0415  see above
        from classclock.book.asking.reading_bests import bests_for  # noqa: PLC0415  see above
        from classclock.book.tables.as_it_is import book_as_it_is  # noqa: PLC0415  see above

        record, began = self.live.record, datetime.fromisoformat(self.started)
        self.own_bests, trouble = bests_for(self._folder, record, self.started, book_as_it_is)
        people = [person.id for person in record.people]
        asked = FitQuestion(people, record.plan, int(began.timestamp() * 1000))
        self.basis = basis_for(self._folder, asked, book_as_it_is)
        return trouble

    def offer(self) -> "Offer | None":
        return None if self._offers is None else self._offers.on_the_board(self.live.record)
