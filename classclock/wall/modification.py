"""What a lane does differently, and where it starts, in words."""

from collections.abc import Sequence

from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.units.printable import printable

AS_WRITTEN = "as written"


def modification(piece: Piece, lane: Lane) -> str:
    """The options in force by name, or `as written`; whether the lane came late."""
    names = [
        printable(station.options[lane.option(place) - 1].name)
        for place, station in enumerate(piece.stations)
        if lane.option(place)
    ]
    words = ", ".join(names) or (AS_WRITTEN if piece.option_menu else "")
    return ", ".join(part for part in (words, "late" if lane.late else "") if part)


def starts_at(piece: Piece, lane: Lane, lanes: Sequence[Lane]) -> str:
    """The movement that a lane starts at; empty where all of these start at the first."""
    if not any(one.start_station for one in lanes):
        return ""
    return printable(piece.stations[lane.start_station].movement)
