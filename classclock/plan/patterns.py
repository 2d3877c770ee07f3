"""What the last weeks held: which patterns, how long the hard pieces, what was heavy twice running.

Information for whoever writes the next plan; what a class can take is the coach's to judge.
"""

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import get_args

from msgspec import Struct

from classclock.clock.formats import timeline
from classclock.plan.model import Plan, Segment, is_piece
from classclock.plan.movements import Library, Pattern

Dated = tuple[dt.date, Plan]

# Where one kind of effort goes over into another. Common practice, no source.
LENGTHS: tuple[tuple[str, int], ...] = (
    ("under 8:00", 8 * 60_000),
    ("8:00 to 15:00", 15 * 60_000 + 1),
    ("over 15:00", 24 * 60 * 60_000 + 1),
)
"""Kinds of hard piece, and the length in milliseconds that each stays below."""


class HeavyTwice(Struct, frozen=True):
    """One pattern heavy on two days running, with the lifts as the plans call them."""

    pattern: Pattern
    first: dt.date
    first_lifts: tuple[str, ...]
    second_lifts: tuple[str, ...]
    """On the day after `first`."""

    def __str__(self) -> str:
        """Say it: `hinge was heavy on 2026-03-30 (deadlift) and on 2026-03-31 (power clean)`."""
        second = self.first + dt.timedelta(days=1)
        lifts, then = ", ".join(self.first_lifts), ", ".join(self.second_lifts)
        return f"{self.pattern} was heavy on {self.first} ({lifts}) and on {second} ({then})"


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


def last_weeks(dated: Sequence[Dated], library: Library) -> LastWeeks:
    """Look back over these classes, in whatever order; each entry is one class."""
    came: Counter[Pattern] = Counter()
    lengths: Counter[str] = Counter()
    unknown: set[str] = set()
    for _, plan in dated:
        movements = {name: library.find(name) for name in _names(plan)}
        unknown |= {name for name, movement in movements.items() if movement is None}
        came.update({one.pattern for one in movements.values() if one is not None})
        hard = hard_piece(plan)
        if hard is not None:
            lengths[_length_word(timeline(hard).total)] += 1
    return LastWeeks(
        classes=len(dated),
        patterns={pattern: came[pattern] for pattern in get_args(Pattern)},
        lengths={word: lengths[word] for word, _ in LENGTHS},
        heavy_twice=tuple(_heavy_twice(_heavy_days(dated, library))),
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


def _length_word(length: int) -> str:
    return next(word for word, below in LENGTHS if length < below)


def _names(plan: Plan) -> Iterator[str]:
    for segment in plan.segment:
        yield from (station.movement for station in segment.station)
        if segment.lift is not None:
            yield segment.lift


Heavy = Mapping[dt.date, Mapping[Pattern, tuple[str, ...]]]


def _heavy_days(dated: Sequence[Dated], library: Library) -> Heavy:
    days: dict[dt.date, dict[Pattern, tuple[str, ...]]] = {}
    for date, plan in dated:
        day = days.setdefault(date, {})
        for segment in plan.segment:
            movement = library.find(segment.lift) if segment.lift is not None else None
            if movement is None or segment.lift is None or not (segment.sets or _by_load(segment)):
                continue
            lifts = day.get(movement.pattern, ())
            if segment.lift not in lifts:
                day[movement.pattern] = (*lifts, segment.lift)
    return days


def _heavy_twice(days: Heavy) -> Iterator[HeavyTwice]:
    for date in sorted(days):
        today, tomorrow = days[date], days.get(date + dt.timedelta(days=1), {})
        for pattern in get_args(Pattern):
            if pattern in today and pattern in tomorrow:
                yield HeavyTwice(pattern, date, today[pattern], tomorrow[pattern])
