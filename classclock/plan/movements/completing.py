"""A plan filled in from the library: what it knows of the movements that the plan names."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import Protocol

from classclock.plan.cautions import each_once
from classclock.plan.editing.writing import plan_text
from classclock.plan.model import Plan, Segment
from classclock.plan.movements.library import CountedIn, EasierMovement, Library, Movement
from classclock.plan.plan_file import PlanFile
from classclock.plan.station import Amount, Option, Station
from classclock.units.spelling import fold

_MOST_OPTIONS = 9
"""In a piece: `:n9` calls the last."""


def complete(plan: Plan, library: Library) -> Plan:
    """Fill in what the plan leaves out; what it says stays, and its options keep their numbers.

    A station that names a known movement takes its standard and its points to coach where it has
    none, its options after its own, the easiest first, if they are counted in what the station
    is, and its cautions after its own; those of options would bury them. A segment takes the same
    of its lift. A piece has no more than nine options with the library's, each station's easiest
    before another's second: a digit calls one. Completing twice changes nothing more.
    """
    segments = tuple(complete_segment(segment, library) for segment in plan.segment)
    return plan.model_copy(update={"segment": segments})


def complete_file(read: PlanFile, library: Library) -> PlanFile:
    """The plan and its text filled in: a journal keeps that text, so a replay needs no library."""
    plan = complete(read.plan, library)
    return read if plan == read.plan else PlanFile(read.name, plan_text(plan), plan)


def complete_segment(segment: Segment, library: Library) -> Segment:
    """One segment, as `complete` does it."""
    offered = _few([_offered(station, library) for station in segment.station], segment)
    stations = tuple(
        _complete_station(station, options, library)
        for station, options in zip(segment.station, offered, strict=True)
    )
    lift = library.find(segment.lift) if segment.lift else None
    taught = {} if lift is None else _taught(segment, lift)
    return segment.model_copy(update={**taught, "station": stations})


class _Taught(Protocol):
    """What a station says of its movement, and a segment of its lift."""

    @property
    def standard(self) -> str | None: ...
    @property
    def points(self) -> tuple[str, ...]: ...
    @property
    def caution(self) -> tuple[str, ...]: ...


def _taught(said: _Taught, movement: Movement) -> dict[str, object]:
    return {
        "standard": said.standard or movement.standard,
        "points": said.points or movement.points,
        "caution": each_once((*said.caution, *movement.caution)),
    }


def _complete_station(station: Station, offered: Iterable[Option], library: Library) -> Station:
    movement = library.find(station.movement)
    if movement is None:
        return station
    return station.model_copy(
        update={**_taught(station, movement), "options": (*station.options, *offered)}
    )


def _offered(station: Station, library: Library) -> tuple[Option, ...]:
    """What the library has beside the station's own options, the easiest first."""
    movement = library.find(station.movement)
    if movement is None:
        return ()
    own = {fold(option.name) for option in station.options}
    # What the library says is checked already.
    return tuple(
        Option.model_construct(
            name=one.name,
            standard=_standard(one, library),
            keep_load=one.keep_load,
            from_library=True,
        )
        for one in movement.options
        if fold(one.name) not in own and _can_be_counted(station, movement, one, library)
    )


def _few(offered: Sequence[Sequence[Option]], segment: Segment) -> Iterator[Sequence[Option]]:
    """Of each station's offered options as many as there are digits for, the stations in turns."""
    room = _MOST_OPTIONS - sum(len(station.options) for station in segment.station)
    turns = sorted(
        (turn, place) for place, options in enumerate(offered) for turn in range(len(options))
    )
    taken = Counter(place for _, place in turns[: max(0, room)])
    return (options[: taken[place]] for place, options in enumerate(offered))


def _standard(option: EasierMovement, library: Library) -> str | None:
    named = library.find(option.name)
    return option.standard or (None if named is None else named.standard)


def _can_be_counted(
    station: Station, movement: Movement, option: EasierMovement, library: Library
) -> bool:
    unit = _counted_in(station)
    return unit is None or unit in library.counts_of_option(movement, option)


def _counted_in(amount: Amount) -> CountedIn | None:
    if amount.metres is not None:
        return "metres"
    if amount.calories is not None:
        return "calories"
    if amount.seconds is not None:
        return "seconds"
    return "reps" if amount.reps is not None or amount.climb is not None else None
