"""Whether the cap fits: what those present would do in a piece, as far as their results tell.

Somebody's own results on the same benchmark come first, those of equal options and loads before
others; without any, their results on other pieces that hold the same movements, of which each
station needs one. Of each kind the last three count. Who has neither is left out: no records, no
guess. Pure: results in, a count out.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import compress

from msgspec import Struct, field

from classclock.plan.amounts import amount_of
from classclock.plan.formats.timelines import length
from classclock.plan.model import Segment
from classclock.records.class_entries import benchmark_key
from classclock.records.efforts import effort_of
from classclock.records.own_bests import lane_terms
from classclock.records.result import Result
from classclock.records.written_terms import NOT_SAID
from classclock.tally.counting.work import Work
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.tally.scores.expected import Expected, counts_reps, expected, middle_pace
from classclock.units.spelling import fold

LAST = 3
"""So many results count, the latest."""

MovementDone = tuple[str, str]
"""What was done at a station, by name, and what it is counted in."""
Names = Callable[[str], str]
"""One name for a movement, however it is spelled."""


class StationDone(Struct, frozen=True):
    """One station of an earlier piece, as somebody did it."""

    movement: MovementDone
    load: str
    """As it was used; empty where it has none, `?` where nobody said."""


class Past(Struct, frozen=True):
    """One earlier result, and the stations of its piece where they are known."""

    result: Result
    stations: tuple[StationDone, ...] = ()
    """Empty where they aren't known, or one of them counts nothing: then no pace a rep is told."""


class Basis(Struct, frozen=True):
    """What everything here rests on."""

    past: Mapping[str, Sequence[Past]] = field(default_factory=dict)
    """Everybody's earlier results by the id in the lane."""
    name_of: Names = fold


class PieceFit(Struct, frozen=True):
    """How a piece would go for the lanes that are here."""

    name: str
    limit: int
    """The cap, or the time, in milliseconds."""
    here: int
    told: tuple[Expected, ...]
    """What each is expected to do of whom something can be told, the least first."""
    results: int
    """How many results that rests on."""
    people: int
    otherwise: int
    """Of how many it is told by other options or loads alone."""
    by_movements: int
    """Of how many it is told by other pieces with the same movements."""
    capped: bool

    @property
    def finish(self) -> int:
        """How many would be done by the cap."""
        return sum(one.finish is not None for one in self.told)

    @property
    def without(self) -> int:
        """Of how many nothing can be told."""
        return self.here - len(self.told)

    @property
    def middle(self) -> Expected | None:
        """What the middle one of them does; the lower of two."""
        return self.told[(len(self.told) - 1) // 2] if self.told else None


def can_be_told(segment: Segment) -> bool:
    """Whether the piece is one that has a cap to fit, or a time for its rounds, for each alone."""
    return results_tell(segment) and segment.teams is None


def results_tell(segment: Segment) -> bool:
    """Whether earlier results tell how somebody would do in it, alone or as one of a team."""
    return segment.about.has_rounds


def expected_of(piece: Piece, lane: Lane, basis: Basis) -> Expected | None:
    """What whoever is alone in this lane is expected to do; None where nothing tells it."""
    own = basis.past.get(lane.members[0], ())
    rests = _by_benchmark(piece, lane, own) or _by_movements(piece, lane, own, basis.name_of)
    if rests is None:
        return None
    return expected(Work(piece, lane), rests.paces, length(piece.segment))


def cap_fit(piece: Piece, lanes: Sequence[Lane], basis: Basis) -> PieceFit:
    """Tell it for one piece and the lanes that are here."""
    told = []
    used: dict[tuple[str, int], None] = {}
    otherwise = by_movements = 0
    for lane in (one for one in lanes if len(one.members) == 1):
        own = basis.past.get(lane.members[0], ())
        rests = _by_benchmark(piece, lane, own) or _by_movements(piece, lane, own, basis.name_of)
        if rests is None:
            continue
        told.append(expected(Work(piece, lane), rests.paces, length(piece.segment)))
        used |= {(lane.members[0], one.result.moment): None for one in rests.on}
        otherwise += rests.otherwise
        by_movements += rests.by_movements
    return PieceFit(
        piece.segment.name,
        length(piece.segment),
        len(lanes),
        tuple(sorted(told, key=_least_first)),
        len(used),
        len({person for person, _ in used}),
        otherwise,
        by_movements,
        piece.can_finish,
    )


def _least_first(one: Expected) -> tuple[int, int]:
    return one.total, 0 if one.finish is None else -one.finish


class _Rests(Struct, frozen=True):
    """The pace at each station, and what it rests on."""

    paces: tuple[float, ...]
    on: tuple[Past, ...]
    otherwise: bool
    by_movements: bool


def _by_benchmark(piece: Piece, lane: Lane, past: Sequence[Past]) -> _Rests | None:
    """From the same benchmark: every station at the pace of the whole."""
    benchmark = benchmark_key(piece.segment.benchmark)
    same = [one for one in past if benchmark and one.result.benchmark == benchmark]
    work, limit = Work(piece, lane), length(piece.segment)
    efforts = {id(one): effort_of(one.result, limit, work) for one in same}
    same = [one for one in same if efforts[id(one)] is not None]
    wanted = lane_terms(piece, lane, limit)
    equal = [one for one in same if one.result.terms.equal(wanted, any_length=True)]
    on = _latest(equal or same)
    if not on:
        return None
    pace = middle_pace([effort for one in on if (effort := efforts[id(one)]) is not None])
    return _Rests((pace,) * len(piece.stations), on, otherwise=not equal, by_movements=False)


def _by_movements(piece: Piece, lane: Lane, past: Sequence[Past], name_of: Names) -> _Rests | None:
    """From pieces that hold the same movements: at each station the pace of those with its own."""
    wanted = stations_of(piece, lane.options, _loads(piece, lane), name_of)
    paces: list[float] = []
    on: dict[int, Past] = {}
    otherwise = False
    for station in wanted:
        holding = [
            one
            for one in past
            if any(has.movement == station.movement for has in one.stations)
            and effort_of(one.result) is not None
        ]
        equal = [one for one in holding if any(_equal(has, station) for has in one.stations)]
        latest = _latest(equal or holding)
        if not latest:
            return None
        otherwise = otherwise or not equal
        on |= {id(one): one for one in latest}
        efforts = (effort_of(one.result) for one in latest)
        paces.append(middle_pace([effort for effort in efforts if effort is not None]))
    if not paces:
        return None
    return _Rests(tuple(paces), tuple(on.values()), otherwise, by_movements=True)


def _equal(one: StationDone, other: StationDone) -> bool:
    return one.movement == other.movement and (
        one.load == other.load or NOT_SAID in (one.load, other.load)
    )


def _latest(past: Iterable[Past]) -> tuple[Past, ...]:
    return tuple(sorted(past, key=lambda one: one.result.moment)[-LAST:])


def _loads(piece: Piece, lane: Lane) -> tuple[str, ...]:
    return tuple(piece.station_load(lane, place) for place in range(len(piece.stations)))


def stations_of(
    piece: Piece, options: Sequence[int], loads: Sequence[str], name_of: Names
) -> tuple[StationDone, ...]:
    """The stations of a piece as somebody does them, each with its load.

    Nothing where one of them counts nothing, as metres do, or the whole is a lift.
    """
    work = Work(piece, Lane("", "", "", (), tuple(options)))
    if not counts_reps(work) or not all(work.station_worths(0)):
        return ()
    found = []
    for place, station in enumerate(piece.stations):
        number = options[place] if place < len(options) else 0
        option = station.options[number - 1] if number else None
        amount = amount_of(station, option)
        units = ("metres", "calories", "seconds")
        unit = next(compress(units, (getattr(amount, one) for one in units)), "reps")
        name = station.movement if option is None else option.name
        found.append(StationDone((name_of(name), unit), loads[place]))
    return tuple(found)
