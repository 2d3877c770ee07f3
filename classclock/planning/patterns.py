"""What the last weeks held: which patterns, how long the hard pieces, what was heavy twice running.

Information for whoever writes the next plan; what a class can take is the coach's to judge.
"""

import datetime as dt
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import get_args

from msgspec import Struct

from classclock.plan.formats.timelines import length
from classclock.plan.model import Plan, Segment, is_piece
from classclock.plan.movements.library import Library, Pattern

# Where one kind of effort goes over into another. Common practice, no source.
LENGTHS: tuple[tuple[str, int], ...] = (
    ("under 8:00", 8 * 60_000),
    ("8:00 to 15:00", 15 * 60_000 + 1),
    ("over 15:00", 24 * 60 * 60_000 + 1),
)
"""Kinds of hard piece, and the length in milliseconds that each stays below."""


class ClassHeld(Struct, frozen=True):
    """What one class holds, as far as looking back asks."""

    date: dt.date
    title: str = ""
    movements: tuple[str, ...] = ()
    """All that it names, lifts too."""
    hard: int | None = None
    """The length of its hard piece in milliseconds; None where it has none."""
    heavy: tuple[str, ...] = ()
    """Its lifts in sets, or scored by the load."""


class HeavyTwice(Struct, frozen=True):
    """One pattern heavy on two days running, with the lifts as the plans call them."""

    pattern: Pattern
    first: dt.date
    first_lifts: tuple[str, ...]
    second_lifts: tuple[str, ...]
    """On the day after `first`."""

    def __str__(self) -> str:
        """Say it: `hinge, heavy, on Mon 30 Mar (deadlift) and Tue 31 Mar (power clean)`."""
        lifts, then = ", ".join(self.first_lifts), ", ".join(self.second_lifts)
        first, second = short_day(self.first), short_day(self.second)
        return f"{self.pattern}, heavy, on {first} ({lifts}) and {second} ({then})"

    @property
    def second(self) -> dt.date:
        return self.first + dt.timedelta(days=1)


class LastWeeks(Struct, frozen=True):
    classes: int
    patterns: Mapping[Pattern, int]
    """In how many classes each pattern came, those that never did too."""
    lengths: Mapping[str, int]
    """How many classes had a hard piece of each length, by the names in `LENGTHS`."""
    heavy_twice: tuple[HeavyTwice, ...]
    """By date, then in the order of the patterns."""
    unknown: tuple[str, ...]
    """Movements that the library doesn't know and so weren't counted, by name."""


def held(date: dt.date, plan: Plan) -> ClassHeld:
    """What a class with this plan holds, run to its end or not."""
    hard = hard_piece(plan)
    return ClassHeld(
        date,
        plan.title,
        tuple(dict.fromkeys(_names(plan))),
        None if hard is None else length(hard),
        tuple(dict.fromkeys(_heavy(plan))),
    )


def last_weeks(classes: Sequence[ClassHeld], library: Library) -> LastWeeks:
    """Look back over these classes, in whatever order."""
    came: Counter[Pattern] = Counter()
    lengths: Counter[str] = Counter()
    unknown: set[str] = set()
    for one in classes:
        movements = {name: library.find(name) for name in one.movements}
        unknown |= {name for name, movement in movements.items() if movement is None}
        came.update({known.pattern for known in movements.values() if known is not None})
        if one.hard is not None:
            lengths[_length_word(one.hard)] += 1
    return LastWeeks(
        classes=len(classes),
        patterns={pattern: came[pattern] for pattern in get_args(Pattern)},
        lengths={word: lengths[word] for word, _ in LENGTHS},
        heavy_twice=tuple(_heavy_twice(_heavy_days(classes, library))),
        unknown=tuple(sorted(unknown)),
    )


def hard_piece(plan: Plan) -> Segment | None:
    """The class's piece against the clock: the last benchmark scored by work, else the last piece.

    A lift, scored by its load, is none.
    """
    pieces = [one for one in plan.segment if is_piece(one) and not _by_load(one)]
    benchmarks = [one for one in pieces if one.benchmark is not None]
    candidates = benchmarks or pieces
    return candidates[-1] if candidates else None


def _by_load(segment: Segment) -> bool:
    return getattr(segment, "score", None) == "load"


def _length_word(hard: int) -> str:
    return next(word for word, below in LENGTHS if hard < below)


def _names(plan: Plan) -> Iterator[str]:
    for segment in plan.segment:
        yield from (station.movement for station in segment.station)
        if segment.lift is not None:
            yield segment.lift


def _heavy(plan: Plan) -> Iterator[str]:
    for segment in plan.segment:
        if segment.lift is not None and (segment.sets or _by_load(segment)):
            yield segment.lift


_HeavyDays = Mapping[dt.date, Mapping[Pattern, tuple[str, ...]]]


def _heavy_days(classes: Iterable[ClassHeld], library: Library) -> _HeavyDays:
    days: dict[dt.date, dict[Pattern, tuple[str, ...]]] = {}
    for one in classes:
        day = days.setdefault(one.date, {})
        for lift in one.heavy:
            movement = library.find(lift)
            if movement is not None and lift not in day.get(movement.pattern, ()):
                day[movement.pattern] = (*day.get(movement.pattern, ()), lift)
    return days


def _heavy_twice(days: _HeavyDays) -> Iterator[HeavyTwice]:
    for date in sorted(days):
        today, tomorrow = days[date], days.get(date + dt.timedelta(days=1), {})
        for pattern in get_args(Pattern):
            if pattern in today and pattern in tomorrow:
                yield HeavyTwice(pattern, date, today[pattern], tomorrow[pattern])


def short_day(day: dt.date) -> str:
    """`Mon 30 Mar`."""
    return f"{day:%a} {day.day} {day:%b}"
