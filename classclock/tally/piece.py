"""The rules of one segment for counting: what a tap is, what decides, when the work is done."""

from typing import Literal

from msgspec import Struct

from classclock.plan.amounts import load_of
from classclock.plan.model import (
    CappedForTime,
    Count,
    Countdown,
    Interval,
    LoadChoice,
    RoundsInTime,
    Segment,
    Station,
)
from classclock.tally.lanes import Lane
from classclock.units.loads import Load, Unit

CountsBy = Literal["nothing", "rounds", "intervals", "reps", "load"]
IntervalRule = Literal["total", "lowest", "best"]


class Piece(Struct, frozen=True):
    """What stays the same while a segment is counted. `unit` is the club's, for a bare load."""

    segment: Segment
    unit: Unit
    counts_by: CountsBy
    rounds: int | None = None
    """How many rounds the work has, where it is a set amount."""
    count: Count = "round"
    tie_break: bool = False
    interval_rule: IntervalRule | None = None
    scheme: tuple[int, ...] | None = None
    option_menu: tuple[tuple[int, int], ...] = ()
    """Station (from 0) and option (from 1) of each option, numbered from 1 in reading order."""

    @classmethod
    def of(cls, segment: Segment, unit: Unit) -> "Piece":
        menu = tuple(
            (place, number)
            for place, station in enumerate(segment.station)
            for number in range(1, len(station.options) + 1)
        )
        match segment:
            case Countdown():
                return cls(segment, unit, segment.score or "nothing", option_menu=menu)
            case Interval(score="load"):
                return cls(segment, unit, "load", option_menu=menu)
            case Interval(score=None):
                return cls(segment, unit, "nothing", option_menu=menu)
            case Interval(score=("total" | "lowest" | "best") as rule):
                return cls(segment, unit, "intervals", interval_rule=rule, option_menu=menu)
            case RoundsInTime():
                return cls(
                    segment,
                    unit,
                    "rounds",
                    count=segment.count,
                    tie_break=segment.tie_break,
                    option_menu=menu,
                )
            case CappedForTime():
                scheme = segment.scheme
                return cls(
                    segment,
                    unit,
                    "rounds",
                    rounds=segment.rounds or len(scheme or (0,)),
                    count=segment.count,
                    scheme=scheme,
                    option_menu=menu,
                )
        raise AssertionError(segment)

    @property
    def can_finish(self) -> bool:
        """Whether the work is a set amount, so that a lane can be done before the cap."""
        return self.rounds is not None

    @property
    def separate(self) -> bool:
        return self.segment.separate

    @property
    def stations(self) -> tuple[Station, ...]:
        return self.segment.station

    def planned_load(self, lane: Lane, number: int) -> Load | None:
        """The load of set `number` (from 1) for this lane; the last set goes on beyond its end.

        What the lane was given comes first (a percentage of the athlete's own maximum), then what
        the plan says. None: nobody planned one.
        """
        if lane.loads:
            return lane.loads[min(number, len(lane.loads)) - 1]
        sets = self.segment.sets
        choice = sets[min(number, len(sets)) - 1].load if sets else None
        return _chosen(choice or self.segment.load, lane.load)

    def station_load(self, lane: Lane, place: int) -> str:
        """The load that the lane uses at a station: `?` if nobody said which, empty if none."""
        station, number = self.stations[place], lane.option(place)
        option = station.options[number - 1] if number else None
        choice = load_of(station, option)
        if choice is None:
            return ""
        load = _chosen(choice, lane.load)
        return "?" if load is None else str(load)


def _chosen(choice: LoadChoice | None, name: str | None) -> Load | None:
    """One load for all, or the lane's own among several by name."""
    if isinstance(choice, dict):
        return choice.get(name) if name is not None else None
    return choice
