"""What an entry is counted against."""

from msgspec import Struct

from classclock.clock.timeline import Timeline
from classclock.tally.piece import Piece


class TimedPiece(Struct, frozen=True):
    """A piece with its timeline, as long as it is by now."""

    piece: Piece
    timeline: Timeline
