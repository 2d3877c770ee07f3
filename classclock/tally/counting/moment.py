"""When an entry was made, and what it is counted against."""

from msgspec import Struct

from classclock.clock.timeline import Timeline
from classclock.tally.piece import Piece


class Moment(Struct, frozen=True):
    """When an entry was made: elapsed ms, not beyond the end; and how long after the end."""

    elapsed: int
    late_by: int


class Place(Struct, frozen=True):
    """What an entry is counted against."""

    piece: Piece
    timeline: Timeline
