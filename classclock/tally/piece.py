"""The rules of one segment for counting: what a tap is, what decides, when the work is done."""

from msgspec.structs import asdict

from classclock.plan.amounts import chosen_load, load_of
from classclock.plan.formats.counting import Counting
from classclock.plan.model import Segment
from classclock.plan.option_menu import option_menu
from classclock.plan.station import Station
from classclock.tally.lanes import Lane
from classclock.tally.signs import SIGNS
from classclock.units.loads import Load, Unit


class Piece(Counting, frozen=True, kw_only=True):
    """What stays the same while a segment is counted: how its format counts, and its work."""

    segment: Segment
    unit: Unit
    """The club's, for a bare load."""
    option_menu: tuple[tuple[int, int], ...]
    """Station (from 0) and option (from 1) of each option by its number, from 1."""

    @classmethod
    def of(cls, segment: Segment, unit: Unit) -> "Piece":
        menu = option_menu(segment)
        return cls(**asdict(segment.counting), segment=segment, unit=unit, option_menu=menu)

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
        return chosen_load(choice or self.segment.load, lane.load)

    def planned_loads(self, lane: Lane) -> tuple[Load | None, ...]:
        """The load of each set, or of all of them where the plan doesn't tell them apart."""
        sets = max(len(lane.loads), len(self.segment.sets), 1)
        return tuple(self.planned_load(lane, number) for number in range(1, sets + 1))

    def station_load(self, lane: Lane, place: int) -> str:
        """The load that the lane uses at a station: `?` if nobody said which, empty if none."""
        station, number = self.stations[place], lane.option(place)
        option = station.options[number - 1] if number else None
        choice = load_of(station, option)
        if choice is None:
            return ""
        load = chosen_load(choice, lane.load)
        return SIGNS["not given"].sign if load is None else str(load)
