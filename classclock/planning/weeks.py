"""This week, the four before it, and what is planned for the days to come, beside each other."""

import datetime as dt
from collections.abc import Sequence

from msgspec import Struct

from classclock.plan.movements.library import Library
from classclock.planning.patterns import ClassHeld, HeavyTwice, LastWeeks, last_weeks, short_day

BEFORE = 4
"""Weeks before this one."""
COMING = 7
"""Days to come, today among them."""


class WeekHeld(Struct, frozen=True):
    monday: dt.date
    held: LastWeeks


class Weeks(Struct, frozen=True):
    today: dt.date
    weeks: tuple[WeekHeld, ...]
    """The earliest first; the last is this one, as far as it has been held."""
    coming: LastWeeks
    """What is planned for the days to come and hasn't been held."""
    planned: tuple[ClassHeld, ...]
    """The same, class by class, the next first."""
    heavy_twice: tuple[HeavyTwice, ...]
    """The latest first; the second day may be planned only."""
    unknown: tuple[str, ...]
    """Movements that the library doesn't know and so weren't counted, by name."""

    def heavy_words(self, one: HeavyTwice) -> str:
        """One pattern heavy twice running, as information."""
        return f"{one}{', planned' if one.second in {plan.date for plan in self.planned} else ''}"

    @property
    def heavy_lately(self) -> tuple[HeavyTwice, ...]:
        """Those of this week and the days to come, a Sunday and its Monday among them."""
        monday = self.weeks[-1].monday
        return tuple(one for one in self.heavy_twice if one.second >= monday)


def first_day(today: dt.date) -> dt.date:
    """The Monday of the earliest week that is looked at."""
    return _monday(today) - dt.timedelta(weeks=BEFORE)


def last_day(today: dt.date) -> dt.date:
    """The last of the days to come."""
    return today + dt.timedelta(days=COMING - 1)


def weeks_until(
    today: dt.date, held: Sequence[ClassHeld], planned: Sequence[ClassHeld], library: Library
) -> Weeks:
    """Put classes held and classes planned, in whatever order, into their weeks.

    A week begins on Monday (ISO 8601). A plan for today that has been held today counts as held;
    one for a day that isn't to come soon is left out.
    """
    done = {(one.date, one.title) for one in held}
    coming = sorted(
        (
            one
            for one in planned
            if today <= one.date <= last_day(today) and (one.date, one.title) not in done
        ),
        key=lambda one: (one.date, one.title),
    )
    looked_at = [one for one in held if first_day(today) <= one.date <= today]
    both = last_weeks([*looked_at, *coming], library)
    return Weeks(
        today,
        tuple(
            WeekHeld(
                monday,
                last_weeks([one for one in looked_at if _monday(one.date) == monday], library),
            )
            for monday in (
                first_day(today) + dt.timedelta(weeks=number) for number in range(BEFORE + 1)
            )
        ),
        last_weeks(coming, library),
        tuple(coming),
        both.heavy_twice[::-1],
        both.unknown,
    )


def planned_words(one: ClassHeld) -> str:
    """`Thu 26 Nov: Turntable Thursday`."""
    return f"{short_day(one.date)}: {one.title}"


def _monday(day: dt.date) -> dt.date:
    return day - dt.timedelta(days=day.weekday())
