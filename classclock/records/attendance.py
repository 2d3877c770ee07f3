"""How often somebody came, week by week."""

from collections import Counter
from collections.abc import Iterable
from datetime import date, timedelta

from msgspec import Struct

WEEKS = 12


class WeekAttended(Struct, frozen=True):
    """A week from Monday to Sunday, as ISO 8601 counts them."""

    monday: date
    classes: int


def weeks(days: Iterable[date], today: date, count: int = WEEKS) -> tuple[WeekAttended, ...]:
    """The last `count` weeks, this one last; a day for each class attended."""
    attended = Counter(monday_of(day) for day in days)
    this_week = monday_of(today)
    mondays = (this_week - timedelta(weeks=back) for back in range(count - 1, -1, -1))
    return tuple(WeekAttended(monday, attended[monday]) for monday in mondays)


def first_day(today: date, count: int = WEEKS) -> date:
    """The Monday on which the first of these weeks begins."""
    return monday_of(today) - timedelta(weeks=count - 1)


def monday_of(day: date) -> date:
    """The Monday of its week."""
    return day - timedelta(days=day.weekday())
