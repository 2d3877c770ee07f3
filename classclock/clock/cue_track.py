"""A segment's cues, each given out once: to be heard, or to be named as skipped."""

from bisect import bisect_right
from operator import attrgetter

from msgspec import Struct
from msgspec.structs import replace

from classclock.clock.cues import Cue

TOO_LATE_MS = 1000
"""A cue later than this is skipped, not played."""


class CueHeard(Struct, frozen=True):
    cue: Cue
    late: int
    """Milliseconds after its time."""


class CueSkipped(Struct, frozen=True):
    cue: Cue
    late: int
    """Milliseconds after its time."""


class CueTrack(Struct, frozen=True):
    """How far a segment's cues have been given out."""

    cues: tuple[Cue, ...]
    """In the order of time."""
    reached: int
    """The elapsed time up to which cues have been given out."""
    given: frozenset[Cue] = frozenset()

    @classmethod
    def entered(cls, cues: tuple[Cue, ...], elapsed: int) -> "CueTrack":
        """A track as it is when the clock is first looked at.

        At a start that is the beginning of the count-in, after a restart the middle of a segment:
        what was due before belongs to the one who ran it then, but for the last second.
        """
        return cls(cues, elapsed - TOO_LATE_MS - 1)

    def due(self, elapsed: int) -> tuple["CueTrack", tuple[CueHeard | CueSkipped, ...]]:
        """The track at this elapsed time, and what came due since the last look, in order.

        Where the clock was set back the cues ahead come due again, but for those given out.
        """
        since = self.reached if elapsed > self.reached else elapsed - 1
        came = self._between(since, elapsed)
        track = replace(self, reached=elapsed, given=self.given.union(came))
        return track, tuple(
            (CueSkipped if elapsed - cue.at > TOO_LATE_MS else CueHeard)(cue, elapsed - cue.at)
            for cue in came
        )

    def upcoming(self, elapsed: int, within: int) -> tuple[Cue, ...]:
        """The cues not given out yet that come due within so many milliseconds.

        One that is due already but not too late is among them.
        """
        since = min(self.reached, elapsed - 1)
        return self._between(max(since, elapsed - TOO_LATE_MS - 1), elapsed + within)

    def following(self, cues: tuple[Cue, ...]) -> "CueTrack":
        """The same track after minutes were added or taken: what was given out stays so."""
        return replace(self, cues=cues)

    def _between(self, after: int, until: int) -> tuple[Cue, ...]:
        first = bisect_right(self.cues, after, key=attrgetter("at"))
        last = bisect_right(self.cues, until, key=attrgetter("at"))
        return tuple(cue for cue in self.cues[first:last] if cue not in self.given)
