"""The class fitted to the clock: what could be shorter or go, so that it ends in time.

Nothing is changed here: each way is one that the coach may take. Pure.
"""

from collections.abc import Iterator

from msgspec import Struct

from classclock.plan.formats.fit import Fit
from classclock.plan.formats.timelines import length
from classclock.plan.model import Segment, is_piece
from classclock.tally.decide_fitting import can_be_fitted
from classclock.tally.record import ClassRecord

MOST_WAYS = 9
"""A digit takes one."""


class FittingWay(Struct, frozen=True):
    """One change to one segment. Times are in milliseconds."""

    segment: int
    fit: Fit
    length: int
    """How long it is then; 0 where it is left out."""
    planned: int
    saves: int
    """By how much the class is shorter then than it stands now."""
    over: int
    """By how much the class is too long even then; 0: it ends in time."""


class ClassFit(Struct, frozen=True):
    """How the class stands for time, and what would make it end in time."""

    left: int
    """Until the class's end, in milliseconds."""
    needs: int
    """What the segment on the board and those to come take, with their count-ins."""
    ways: tuple[FittingWay, ...] = ()
    """Those that end in time by themselves first; shorter before left out, pieces stay longest."""

    @property
    def over(self) -> int:
        """By how much the plan overruns, in milliseconds."""
        return max(0, self.needs - self.left)

    @property
    def enough(self) -> bool:
        """Whether one of the ways is enough by itself."""
        return any(not way.over for way in self.ways)


def time_needed(record: ClassRecord) -> int:
    """What the segment on the board and those to come take, with their count-ins (ms)."""
    here = record.chosen.segment
    to_run = (one for one in record.to_come if one == here or can_be_fitted(record, one))
    return sum(_takes(record, index, record.plan.segment[index]) for index in to_run)


def overruns(record: ClassRecord, left: int | None) -> bool:
    """Whether the class is over before its plan; `left` is ms until its end, None is not said."""
    return left is not None and time_needed(record) > left


def class_fit(record: ClassRecord, left: int) -> ClassFit:
    """What would make the class end in time; `left` is the milliseconds until its end.

    A time gets whole minutes, steps whole repeats, neither less than half of what was planned. A
    segment can go unless it leads up to the first piece: that is the warm-up (common practice, no
    source).
    """
    stands = ClassFit(max(0, left), time_needed(record))
    if not stands.over:
        return stands
    found = [way for index in record.to_come for way in _ways(record, index, stands)]
    found.sort(key=lambda way: (way.over > 0, _weight(record, way)))
    return ClassFit(stands.left, stands.needs, tuple(found[:MOST_WAYS]))


def _weight(record: ClassRecord, way: FittingWay) -> int:
    """How much it changes the class: a time, something that isn't scored, a piece."""
    return way.fit.left_out * (1 + is_piece(record.plan.segment[way.segment]))


def fits_to_take_back(record: ClassRecord) -> tuple[int, ...]:
    """The segments that were fitted and haven't been started, the newest first."""
    return tuple(index for index in reversed(tuple(record.fits)) if can_be_fitted(record, index))


def _ways(record: ClassRecord, index: int, stands: ClassFit) -> Iterator[FittingWay]:
    """The longest that ends in time, else the shortest that makes sense; and without it."""
    if not can_be_fitted(record, index):
        return
    now, planned = record.plan.segment[index], record.planned(index)
    takes = _takes(record, index, now)
    shorter = [
        FittingWay(index, fit, length(short), length(planned), saves, max(0, stands.over - saves))
        for fit in planned.ways_shorter()
        for short in [planned.fitted(fit)]
        for saves in [takes - _takes(record, index, short)]
        if saves > 0
    ]
    if shorter:
        yield next((way for way in shorter if not way.over), shorter[-1])
    if _can_go(record, index):
        over = max(0, stands.over - takes)
        yield FittingWay(index, Fit(left_out=True), 0, length(planned), takes, over)


def _can_go(record: ClassRecord, index: int) -> bool:
    come = record.in_order
    until = come[: come.index(index) + 1]
    warms_up = not any(is_piece(record.plan.segment[one]) for one in until)
    scored = any(is_piece(one) for one in record.plan.segment)
    return not (warms_up and scored) and len(record.to_come) > 1


def _takes(record: ClassRecord, index: int, segment: Segment) -> int:
    """What a segment takes with its count-ins, in all its heats that are to come (ms)."""
    return _heats_left(record, index) * (length(segment) + segment.count_in)


def _heats_left(record: ClassRecord, segment: int) -> int:
    """How many heats are to come where equipment is shared; 1 elsewhere."""
    shared = record.shared.get(segment)
    places = () if shared is None else shared.places
    taken = (place.heat for place in places if not record.left.keys() >= set(place.members))
    heats = max(taken, default=1)
    return max(1, heats - record.chosen.heat + 1) if segment == record.chosen.segment else heats
