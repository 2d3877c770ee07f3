"""All that a journal holds or is to hold, and how far that is written, and on disk."""

from bisect import bisect_right

from classclock.tally.events import Event


class JournalLines:
    """Kept in memory whole, a few hundred kilobytes: a file that is gone can be written anew.

    A byte is *written* once the system has it, and *synced* once it is on disk.
    """

    def __init__(self, kept: bytes = b"", events: tuple[Event, ...] = ()) -> None:
        """`kept` are the lines of a journal that was read, and `events` what they tell."""
        self.data = bytearray(kept)
        self.events = list(events)
        self.written = self.synced = len(kept)
        self._kept, self._told = len(kept), len(events)
        self._ends: list[int] = []
        """Where each line ends that was added here."""
        self._events_by: list[int] = []
        """How many events are told by the end of each of them."""

    def add(self, line: bytes, event: Event | None = None) -> None:
        """One more line; None: it tells no event."""
        self.data += line
        if event is not None:
            self.events.append(event)
        self._ends.append(len(self.data))
        self._events_by.append(len(self.events))

    def lost(self) -> None:
        """The file is gone with all that was in it."""
        self.written = self.synced = 0

    @property
    def all_written(self) -> bool:
        return self.written == len(self.data)

    @property
    def all_synced(self) -> bool:
        return self.synced == len(self.data)

    @property
    def events_written(self) -> int:
        return self._events_within(self.written)

    @property
    def events_synced(self) -> int:
        return self._events_within(self.synced)

    @property
    def whole(self) -> int:
        """How many bytes the lines take that are written whole."""
        number = bisect_right(self._ends, self.written)
        return self._ends[number - 1] if number else min(self._kept, self.written)

    def line_after(self, place: int) -> bytes:
        """The line that begins there."""
        end = self.data.find(b"\n", place)
        return bytes(self.data[place : end + 1])

    def _events_within(self, length: int) -> int:
        number = bisect_right(self._ends, length)
        if number:
            return self._events_by[number - 1]
        return self._told if self._kept and length >= self._kept else 0
