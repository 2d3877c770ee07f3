"""Following whatever class runs in a club's folder, one after the other.

`look` is called some twenty times a second: it asks a few files whether they have changed.
"""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from msgspec import Struct

from classclock.book.files.journal import Anchor, JournalTooNewError, JournalUnreadableError
from classclock.book.files.unfinished import REJOINABLE
from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, raw_now
from classclock.club.folder import settings
from classclock.club.settings import read_club
from classclock.following.followed_class import FollowedClass, clock_by
from classclock.following.followed_guide import FollowedGuide
from classclock.following.growing_journal import GrowingJournal
from classclock.following.running_class import RunningClass, running_class
from classclock.following.view_file import LaterViewError, read_view, view_path
from classclock.plan.settings.club import Club
from classclock.units.printable import printable

_WHETHER_IT_RUNS = 500
"""Milliseconds between two looks whether it still runs, or another does."""
PATIENCE = 2_000
"""Milliseconds after which a class that nobody runs is said to be left alone."""
_HISTORY = REJOINABLE // timedelta(milliseconds=1)


class Followed(Struct):
    """A class, and what it has told."""

    seen: FollowedClass
    guide: FollowedGuide
    trouble: str = ""
    """What is wrong with what it tells, in words."""


class Follower:
    """`followed` is the class that is followed now; None: none runs, or `trouble` says why not."""

    def __init__(
        self,
        folder: Path,
        club: Club,
        *,
        clock_of: Callable[[Anchor], ClassClock] = clock_by,
        real: Callable[[], int] = lambda: raw_now() // MS,
    ) -> None:
        """`real` gives milliseconds of real time."""
        self._folder, self._club = folder, club
        self._clock_of, self._real = clock_of, real
        self.followed: Followed | None = None
        self.trouble = ""
        """Why the class that runs can't be followed, in words; empty where it can be."""
        self._growing: GrowingJournal | None = None
        self._began: Path | None = None
        """Its view where it began, if none is beside where it is now."""
        self._told: Path | None = None
        """The view that was read last, as long as it is there."""
        self._view: object = None
        self._looked = -_WHETHER_IT_RUNS
        self._gone: int | None = None

    @property
    def alone(self) -> bool:
        """Whether nobody runs the class that is followed, and hasn't for a while."""
        return self._gone is not None and self._real() - self._gone >= PATIENCE

    def look(self) -> bool:
        """See what has happened; whether there may be something else to show."""
        before = self.followed, self.trouble, self.alone
        real, came = self._real(), self._heard()
        if real - self._looked >= _WHETHER_IT_RUNS:
            self._looked = real
            self._find(real)
            came |= self._heard()
        return came or before != (self.followed, self.trouble, self.alone)

    def _heard(self) -> bool:
        """Take what has come, or say why that can't be; whether anything has."""
        try:
            return self._take() if self._growing is not None else False
        except JournalTooNewError as error:
            self._refuse(f"this class is run by a later classclock: {printable(error.why)}")
        except (JournalUnreadableError, ValueError) as error:
            self._refuse(f"this class can't be followed: {printable(str(error))}")
        except OSError:
            pass  # it is gone: whether its class is too is seen at the next look
        return False

    # -- which class ---------------------------------------------------------------

    def _find(self, real: int) -> None:
        """Whether the class that is followed runs, and if not, whether another does."""
        at = self._growing.path if self._growing is not None else None
        running = running_class(self._folder, at)
        if running is not None and running.journal != at:
            self._begin(running)
        elif running is not None:
            self._gone = None
        elif at is not None:
            self._gone = real if self._gone is None else self._gone
            if self._is_over or real - self._gone >= _HISTORY:
                self._end()

    @property
    def _is_over(self) -> bool:
        """Whether the class that nobody runs any more was left: closed, or its view taken away."""
        if self.followed is None or self.followed.seen.live.record.closed:
            return True
        return self._told is not None and not self._told.exists()

    def _begin(self, running: RunningClass) -> None:
        self._end()
        self._growing, self._began = GrowingJournal(running.journal), running.view
        self._club = read_club(settings(self._folder))[0] or self._club

    def _end(self) -> None:
        self.followed = self._growing = self._began = self._told = self._view = self._gone = None
        self.trouble = ""

    def _refuse(self, why: str) -> None:
        """It stays so, until another class runs."""
        self.followed, self.trouble = None, why

    # -- what has happened in it -----------------------------------------------------

    def _take(self) -> bool:
        if self.trouble or self._growing is None:
            return False
        came = self.followed.seen.look() if self.followed is not None else self._growing.look()
        came |= self._read_view()
        journal, record = self._growing.journal, self._growing.record
        if journal is None or record is None:
            return False
        if self.followed is None or self.followed.seen.anchor != journal.anchors[-1]:
            # Opened, or taken up again: its clock may be another one.
            room = self.followed.guide.room if self.followed is not None else None
            seen = FollowedClass(
                *(self._growing, journal, record),
                folder=self._folder,
                club=self._club,
                clock_of=self._clock_of,
            )
            self.followed = Followed(seen, FollowedGuide(seen))
            self._view = None
            if room is not None:
                self.followed.guide.room = room
            self._read_view()
            came = True
        if journal.moved is not None:
            self._go_on_in(journal.moved.to)
        return came

    def _go_on_in(self, journal: str) -> None:
        """The class is there now, if it wasn't before."""
        if self._growing is not None and Path(journal) != self._growing.path:
            self._growing.go_on_in(Path(journal))

    def _read_view(self) -> bool:
        """Take what the class tells, where that has changed; whether it has."""
        if self.followed is None or self._growing is None:
            return False
        for view in filter(None, (view_path(self._growing.path), self._began)):
            try:
                now = view.stat()
            except OSError:
                continue
            file = view, now.st_ino, now.st_size, now.st_mtime_ns
            if file == self._view:
                return False
            self._view, self._told = file, view
            return self._hear(view, self.followed)
        return False

    def _hear(self, view: Path, followed: Followed) -> bool:
        followed.trouble = ""
        try:
            told = read_view(view)
        except LaterViewError as error:
            followed.trouble, told = str(error), None
        if told is not None:
            self._go_on_in(told.journal)
            followed.guide.room = told.room
        return True
