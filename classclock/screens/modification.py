"""What a lane does differently, in words."""

from classclock.plan.printable import printable
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece


def modification(piece: Piece, lane: Lane) -> str:
    """The options in force by name, or `as written`; whether the lane came late."""
    names = [
        printable(station.options[lane.option(place) - 1].name)
        for place, station in enumerate(piece.stations)
        if lane.option(place)
    ]
    words = ", ".join(names) or ("as written" if piece.option_menu else "")
    return ", ".join(part for part in (words, "late" if lane.late else "") if part)
