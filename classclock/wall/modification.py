"""What a lane does differently, where it starts and what its round takes, in words."""

from collections.abc import Sequence

from classclock.plan.amounts import amount_of, names_amount
from classclock.plan.station import Option, Station
from classclock.tally.counting.portion_words import portion_in, share_of
from classclock.tally.lane_tally import LaneTally
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.units.printable import printable

AS_WRITTEN = "as written"
_MANY = 12
"""Rounds up to whose rung room is kept."""


def modification(piece: Piece, lane: Lane) -> str:
    """The options in force by name, or `as written`; how much of the piece; whether late."""
    names = [
        printable(station.options[lane.option(place) - 1].name)
        for place, station in enumerate(piece.stations)
        if lane.option(place)
    ]
    names += map(printable, portion_in(piece.segment, lane))
    words = ", ".join(names) or (AS_WRITTEN if piece.option_menu else "")
    return ", ".join(part for part in (words, "late" if lane.late else "") if part)


def starts_at(piece: Piece, lane: Lane, lanes: Sequence[Lane]) -> str:
    """The movement that a lane starts at; empty where all of these start at the first."""
    if not any(one.start_station for one in lanes):
        return ""
    return printable(piece.stations[lane.start_station].movement)


def rung_words(piece: Piece, tally: LaneTally) -> str:
    """`now 12`, `now 12 and 6`; empty where all rounds are alike or the lane is done."""
    if tally.out:
        return ""
    return _words(_rungs(piece, tally.lane, len(tally.rounds)))


def widest_rung(piece: Piece, lane: Lane) -> str:
    """The longest of them that the lane is likely to come to."""
    rounds = piece.rounds or _MANY
    return max((_words(_rungs(piece, lane, index)) for index in range(rounds)), key=len)


def _words(rungs: tuple[int, ...]) -> str:
    return f"now {' and '.join(map(str, rungs))}" if rungs else ""


def _rungs(piece: Piece, lane: Lane, index: int) -> tuple[int, ...]:
    """The reps that differ from round to round, each number once, in the plan's order."""
    if piece.counts_by != "rounds":
        return ()
    found = (
        _rung(piece, station, _chosen(station, lane.option(place)), index)
        for place, station in enumerate(piece.stations)
    )
    return tuple(dict.fromkeys(share_of(lane.portion, reps) for reps in found if reps is not None))


def _chosen(station: Station, number: int) -> Option | None:
    return station.options[number - 1] if 0 < number <= len(station.options) else None


def _rung(piece: Piece, station: Station, option: Option | None, index: int) -> int | None:
    amount = amount_of(station, option)
    if amount.climb is not None:
        return amount.climb.first + amount.climb.step * index
    scheme = piece.scheme
    if scheme is None or names_amount(amount) or index >= len(scheme) or len(set(scheme)) == 1:
        return None
    return scheme[index]
