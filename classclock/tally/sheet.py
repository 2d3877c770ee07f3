"""All tallies of a piece: a pure fold over what happened."""

from collections.abc import Mapping
from dataclasses import dataclass

from classclock.clock.running import RunningTime
from classclock.clock.timeline import Timeline
from classclock.tally.events import Event, SegmentStarted
from classclock.tally.lane_tally import LaneTally
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece


@dataclass(frozen=True, slots=True)
class Sheet:
    piece: Piece
    timeline: Timeline
    clock: RunningTime
    segment_index: int
    heat: int
    lanes: tuple[Lane, ...]
    """As they stood at the start, and those who joined."""
    tallies: Mapping[str, LaneTally]
    settled: bool = False

    @classmethod
    def begin(cls, piece: Piece, timeline: Timeline, event: SegmentStarted) -> "Sheet":
        raise NotImplementedError

    def apply(self, number: int, event: Event) -> "Sheet":
        raise NotImplementedError

    def elapsed(self, at: int) -> int:
        """Milliseconds of the piece gone at this moment, not beyond its end."""
        raise NotImplementedError

    def ended(self, now: int) -> int | None:
        """The elapsed milliseconds at which the piece ended, if it has by this moment."""
        raise NotImplementedError

    def all_in(self, now: int) -> int | None:
        """The elapsed milliseconds at which everybody was in, if they are."""
        raise NotImplementedError
