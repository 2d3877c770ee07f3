"""When an entry was made, and what it is counted against."""

from dataclasses import dataclass

from classclock.clock.timeline import Timeline
from classclock.tally.piece import Piece


@dataclass(frozen=True, slots=True)
class Moment:
    """When an entry was made: elapsed ms, not beyond the end; and how long after the end."""

    elapsed: int
    late_by: int


@dataclass(frozen=True, slots=True)
class Place:
    """What an entry is counted against."""

    piece: Piece
    timeline: Timeline
