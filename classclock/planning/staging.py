"""How a class does a piece when there isn't a piece of equipment for everyone.

What the trade does: heats, a staggered start, partners, or an option that needs none (common
practice, no source). Which of them fit the club's equipment, and how long the class is then, is
worked out here; which one suits these people is the coach's to say.
"""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Segment
from classclock.plan.movements.library import Library
from classclock.planning.equipment import Inventory, most_at_once, shortage, station_needs
from classclock.planning.spreading import most_lanes, peaks, spread
from classclock.tally.lineup import MOST_LANES

CHANGE = 120_000
"""Milliseconds between two heats, to change over and to breathe. Common practice, no source."""
PARTNERS = 2


class Modified(Struct, frozen=True):
    """So many lanes take an option that needs nothing of which there isn't enough."""

    station: int
    option: int
    """Of the station's options as the segment has them, from 1."""
    lanes: int


class Staging(Struct, frozen=True):
    """One way to do it."""

    heats: tuple[tuple[int, ...], ...]
    """For each heat the start station of each of its lanes, or bars, from 0, as people came."""
    team: int
    """How many people share a lane, or a bar, and its equipment."""
    modified: tuple[Modified, ...]
    length: int
    """All heats with their count-ins and what lies between them, in milliseconds."""
    extra: int
    """How much longer that is than with enough of everything; below zero if it is shorter."""
    no_spare: tuple[str, ...]
    """Pieces that are all in use at some moment of a staggered start: someone may wait."""

    @property
    def staggered(self) -> bool:
        return any(any(heat) for heat in self.heats)


def propose_staging(
    segment: Segment, people: int, inventory: Inventory, library: Library
) -> tuple[Staging, ...]:
    """Every way that is no worse than a simpler one, the shortest first; none if nothing is short.

    Among equally long ones the order is staggered start, partners, options, heats; nothing comes
    back, too, where nothing helps. A staggered start is offered where rounds are counted, and
    stands on the model of `spreading`. `inventory` holds what was counted: other pieces are taken
    to be there for everyone.
    """
    task = _Task(segment, people, inventory, library)
    if people < 1 or not task.short:
        return ()
    ways = list(dict.fromkeys(way for way in task.ways() if way is not None))
    kept = [way for way in ways if not any(_simpler(other, way) for other in ways)]
    return tuple(sorted(kept, key=lambda way: (way.length, len(_devices(way)), _devices(way))))


_STAGGERED, _PARTNERS, _OPTIONS, _HEATS = range(4)


def _devices(way: Staging) -> tuple[int, ...]:
    used = {
        _STAGGERED: way.staggered,
        _PARTNERS: way.team == PARTNERS,
        _OPTIONS: bool(way.modified),
        _HEATS: len(way.heats) > 1,
    }
    return tuple(device for device, uses in used.items() if uses)


def _simpler(one: Staging, other: Staging) -> bool:
    """Whether the one asks for less, and is no longer."""
    return set(_devices(one)) < set(_devices(other)) and one.length <= other.length


def usual_heats(segment: Segment, people: int) -> tuple[int, ...]:
    """How many lanes each heat has with enough of everything: one heat up to 26 lanes."""
    lanes = -(-people // (segment.teams or 1))
    return heat_sizes(lanes, _least_heats(lanes))


def by_turns(segment: Segment) -> bool:
    """Whether whoever shares in it lifts by turns, with a tally each, and isn't a team."""
    return segment.teams is None and (not segment.station or segment.counting.counts_by == "load")


class _Task:
    def __init__(
        self, segment: Segment, people: int, inventory: Inventory, library: Library
    ) -> None:
        self._segment = segment
        self._people = people
        self._inventory = inventory
        self._library = library
        self._needs = station_needs(segment, library)
        self._most = most_at_once(self._needs)
        self._team = segment.teams or 1
        self._usual = usual_heats(segment, people)
        self.short = {one.piece for one in shortage(self._needs, self._usual[0], inventory)}

    def ways(self) -> Iterator[Staging | None]:
        teams = [self._team]
        if self._segment.teams is None and self._people >= PARTNERS:
            teams.append(PARTNERS)
        for team in teams:
            yield self._together(team)
            if self._segment.about.has_rounds and len(self._needs) > 1:
                yield self._staggered(team)
        yield self._with_options()

    def _lanes(self, team: int) -> int:
        if team == PARTNERS and by_turns(self._segment):
            return max(1, self._people // PARTNERS)  # an odd one makes a three
        return -(-self._people // team)

    def _at_once(self) -> int:
        """How many lanes can be at work at once, wherever each of them is."""
        counted = [piece for piece in self._most if piece in self._inventory]
        return min(self._inventory[piece] // self._most[piece] for piece in counted)

    def _together(self, team: int) -> Staging | None:
        fit = self._at_once()
        if not fit:
            return None
        lanes = self._lanes(team)
        by_turns_here = team == PARTNERS and by_turns(self._segment)
        keys = self._people if by_turns_here else lanes
        sizes = heat_sizes(lanes, max(_least_heats(keys), -(-lanes // fit)))
        return self._staging(tuple((0,) * size for size in sizes), team)

    def _staggered(self, team: int) -> Staging | None:
        lanes = self._lanes(team)
        most = most_lanes(self._needs, self._inventory)
        if not most:
            return None
        for heats in range(max(_least_heats(lanes), -(-lanes // most)), lanes + 1):
            sizes = heat_sizes(lanes, heats)
            begun = {size: spread(self._needs, size, self._inventory) for size in set(sizes)}
            spreads = [starts for size in sizes if (starts := begun[size]) is not None]
            if len(spreads) == heats:
                lined_up = tuple(tuple(_one_by_one(starts)) for starts in spreads)
                return self._staging(lined_up, team, no_spare=self._no_spare(spreads))
        return None

    def _no_spare(self, spreads: Sequence[Sequence[int]]) -> tuple[str, ...]:
        most = most_at_once(peaks(self._needs, tuple(starts)) for starts in spreads)
        return tuple(piece for piece, held in most.items() if self._inventory.get(piece) == held)

    def _with_options(self) -> Staging | None:
        modified = []
        taken: set[str] = set()
        for place, need in enumerate(self._needs):
            lacking = self.short & need.keys()
            if not lacking:
                continue
            # Whoever takes it leaves all that is short alone, at every station: no fewer would do.
            too_many = [max(self._too_many(one, size) for one in lacking) for size in self._usual]
            option = self._option_without(place, max(too_many), taken)
            if option is None:
                return None
            modified.append(Modified(place, option, sum(too_many)))
        heats = tuple((0,) * size for size in self._usual)
        return self._staging(heats, self._team, tuple(modified))

    def _too_many(self, piece: str, lanes: int) -> int:
        return max(0, lanes - self._inventory[piece] // self._most[piece])

    def _option_without(self, place: int, lanes: int, taken: set[str]) -> int | None:
        """The number of the first option that so many lanes can take at once.

        It needs no equipment, or only pieces that were counted, are enough, and that nobody else
        in this segment uses; those join `taken`.
        """
        if not self._segment.station:
            return None
        station = self._segment.station[place]
        for number, option in enumerate(station.options, start=1):
            need = self._library.needs_of_option(station.movement, option.name)
            used = need.keys() & (self._most.keys() | taken)
            there = all(self._inventory.get(one, 0) >= lanes * need[one] for one in need)
            if there and not used:
                taken |= need.keys()
                return number
        return None

    def _staging(
        self,
        heats: tuple[tuple[int, ...], ...],
        team: int,
        modified: tuple[Modified, ...] = (),
        no_spare: tuple[str, ...] = (),
    ) -> Staging:
        length = self._length(len(heats))
        extra = length - self._length(len(self._usual))
        return Staging(heats, team, modified, length, extra, no_spare)

    def _length(self, heats: int) -> int:
        one = timeline(self._segment).total + self._segment.count_in
        return heats * one + (heats - 1) * CHANGE


def _least_heats(lanes: int) -> int:
    # A lane needs a letter of its own.
    return max(1, -(-lanes // MOST_LANES))


def heat_sizes(lanes: int, heats: int) -> tuple[int, ...]:
    """So many lanes in so many heats of even size, the fullest first."""
    return tuple(-(-(lanes - heat) // heats) for heat in range(heats))


def _one_by_one(starts: Sequence[int]) -> Iterator[int]:
    for station, lanes in enumerate(starts):
        yield from [station] * lanes
