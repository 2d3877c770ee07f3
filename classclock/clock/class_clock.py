"""Moments on the class's own clock: whole milliseconds since the class was opened."""

from msgspec import Struct

from classclock.clock.source import MS, TimeSource


class ClassClock(Struct, frozen=True):
    """A time source counted from the reading at which the class was opened."""

    source: TimeSource
    opened: int
    """The source's reading at moment zero, in nanoseconds."""

    def now(self) -> int:
        """The moment it is, cut down to the whole millisecond."""
        return self._moment(self.source.now())

    def arrived(self, stamp: float) -> int:
        """The moment at which something stamped with `time.monotonic()` seconds arrived."""
        return self._moment(self.source.now() - self.source.age(stamp))

    def real_seconds(self, until: int) -> float:
        """The real seconds that a wait for this moment takes; see `TimeSource.real_seconds`."""
        return self.source.real_seconds(self._reading(until))

    def raw(self, moment: int) -> int:
        """What the machine's raw clock reads at this moment; see `TimeSource.raw`."""
        return self.source.raw(self._reading(moment))

    def _moment(self, reading: int) -> int:
        return (reading - self.opened) // MS

    def _reading(self, moment: int) -> int:
        return self.opened + moment * MS
