"""The class's own clock: whole milliseconds since it was opened."""

from dataclasses import dataclass

from classclock.clock.source import TimeSource


@dataclass(frozen=True, slots=True)
class ClassClock:
    """Ties the class's zero to a reading of the time source."""

    source: TimeSource
    zero: int
    """The source's reading, in ns, at which the class's clock read zero."""

    @classmethod
    def reading(cls, source: TimeSource, at: int = 0) -> "ClassClock":
        """The clock that reads `at` ms now."""
        return cls(source, source.now() - at * 1_000_000)

    def now(self) -> int:
        return (self.source.now() - self.zero) // 1_000_000

    def arrived(self, stamp: float) -> int:
        """The moment at which a message stamped on CLOCK_MONOTONIC (seconds) arrived."""
        return (self.source.now() - self.source.age(stamp) - self.zero) // 1_000_000

    def reading_at(self, at: int) -> int:
        """The source's reading, in ns, at a moment of the class."""
        return self.zero + at * 1_000_000
