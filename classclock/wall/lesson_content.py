"""One movement as it is taught from the wall: what counts, what to coach, what to look out for."""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from classclock.live.standing_class import StandingClass
from classclock.plan.model import Segment
from classclock.plan.outline import station_line
from classclock.plan.station import Station
from classclock.units.printable import printable

_LONGEST = 300


class Lesson(Struct, frozen=True):
    place: str
    """`movement 2 of 3`."""
    name: str
    words: str
    """How much of it, and with what."""
    standard: str
    points: tuple[str, ...]
    cautions: tuple[str, ...]
    options: tuple[str, ...]


def lessons(segment: Segment) -> tuple[Lesson, ...]:
    """The movements of a segment of which there is something to teach, in their order."""
    found = tuple(_lessons(segment))
    return tuple(
        replace(lesson, place=f"movement {number} of {len(found)}")
        for number, lesson in enumerate(found, start=1)
    )


def lesson_taught(live: StandingClass, segment: int, number: int) -> Lesson | None:
    """The lesson of this number, from 1, while that segment is on the board; None: none is."""
    if number < 1 or live.record.chosen.segment != segment or live.phase != "board":
        return None
    every = lessons(live.record.segment)
    return every[number - 1] if number <= len(every) else None


def _lessons(segment: Segment) -> Iterator[Lesson]:
    if segment.lift and (segment.standard or segment.points):
        yield _lesson(segment.lift, "", segment)
    for station in segment.station:
        if station.standard or station.points or station.caution:
            options = tuple(_safe(option.name) for option in station.options)
            yield _lesson(station.movement, station_line(station), station, options)


def _lesson(
    name: str, words: str, said: Segment | Station, options: tuple[str, ...] = ()
) -> Lesson:
    return Lesson(
        "",
        _safe(name),
        _safe(words),
        _safe(said.standard or ""),
        tuple(map(_safe, said.points)),
        tuple(map(_safe, said.caution)),
        options,
    )


def _safe(text: str) -> str:
    return printable(text, _LONGEST)
