"""Writing the journal: each event before it is shown, and synced to disk at once after.

A disk that refuses doesn't stop the class. `on_disk` says how much of it is there whatever happens,
and `fault` why the rest isn't; nothing else may say that something is saved.
"""

import json
import os
from collections.abc import Callable
from pathlib import Path

from classclock.book.files.event_lines import event_line
from classclock.book.files.held_file import HeldFile
from classclock.book.files.journal import Anchor, Journal, Lost, MovedTo
from classclock.book.files.journal_lines import JournalLines
from classclock.book.files.kept_lines import KeptLines
from classclock.book.files.spare_room import SpareRoom
from classclock.machine.plain_file import read_file
from classclock.tally.events import Event, LaneEvent

_LAST_WAIT = 2.0
"""Seconds for the last sync of all."""


class JournalWriter:
    """One journal, held by one process. Numbers the events as they come."""

    def __init__(
        self, path: Path, *, wall: Callable[[], str], spare: SpareRoom | None = None
    ) -> None:
        """`wall` says the time of day, RFC 3339; `spare` is given up when the disk is full."""
        self._wall = wall
        self._there = KeptLines(path, spare or SpareRoom(path.parent))
        self._closed = False

    # -- what is on disk ---------------------------------------------------------------

    @property
    def path(self) -> Path:
        return self._there.path

    @property
    def number(self) -> int:
        """How many events the class has: the number of the next."""
        return len(self._there.lines.events)

    @property
    def events(self) -> tuple[Event, ...]:
        return tuple(self._there.lines.events)

    @property
    def on_disk(self) -> int:
        """How many of the events, from the first on, are on disk whatever happens."""
        return self._there.lines.events_synced

    @property
    def all_on_disk(self) -> bool:
        return self._there.lines.all_synced

    @property
    def fault(self) -> str:
        """Why something isn't on disk that was tried, in words; empty where nothing failed."""
        return self._there.fault

    @property
    def slow(self) -> bool:
        """Whether the disk takes long to confirm what was written."""
        return self._there.slow

    # -- opening -----------------------------------------------------------------------

    def open_new(self, anchor: Anchor) -> None:
        """Begin a new journal. What has its name already is not written over.

        A folder that can't be written to is a fault, not an error: the class runs on.

        Raises:
            FileExistsError: there is something of that name.
        """
        if os.path.lexists(self.path):
            raise FileExistsError(self.path)
        self._there.add(anchor.line())

    def go_on(self, held: HeldFile | None, journal: Journal, anchor: Anchor) -> None:
        """Go on in a journal that was read, behind the last of its whole lines.

        `held` is its file; None: it can't be written to, but may be later.

        Raises:
            OSError: it can't be read any more.
        """
        kept = read_file(self.path)[: journal.whole]
        self._there.go_on(held, JournalLines(kept, journal.events))
        self._there.add(anchor.line())

    def move_to(self, path: Path) -> None:
        """Write the whole journal to another place, see it on disk, and go on there.

        Raises:
            OSError: the other place can't be written to either. It goes on where it was.
        """
        self._there.move_to(path, MovedTo(str(path.absolute()), self._wall()).line())

    # -- writing -----------------------------------------------------------------------

    def append(self, event: Event) -> int:
        """Write one event and give its number. Never raises for the disk's sake."""
        number = self.number
        self._there.add(event_line(event, number, self._wall()), event)
        return number

    def try_again(self) -> None:
        """See that the file is still there, and write what it lacks; it is synced soon after."""
        self._there.try_again()

    def settle(self, seconds: float) -> None:
        """Wait until all is synced that can be, but no longer than this. In a thread."""
        self._there.settle(seconds)

    def close(self) -> None:
        """Sync what is written, say in the file what isn't, and let it go."""
        if self._closed:
            return
        self._closed = True
        if not self.all_on_disk:
            self.try_again()
            self.settle(_LAST_WAIT)
        self._there.end(self._lost())

    def _lost(self) -> bytes:
        """A line that says what isn't written; none where all is."""
        lines = self._there.lines
        missing = lines.events[lines.events_written :]
        if not missing:
            return b""
        lanes = dict.fromkeys(event.lane for event in missing if isinstance(event, LaneEvent))
        since = str(json.loads(lines.line_after(lines.whole)).get("wall", self._wall()))
        return Lost(len(missing), tuple(lanes), since, self._wall()).line()
