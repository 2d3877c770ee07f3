"""How hard weeks were for somebody: effort minutes, and how alike their days were.

An effort is an athlete's own word for a class, 0 to 10; times the minutes of the class it makes
*effort minutes*. Of a week of seven days, where a day without a class is 0:

- monotony: the mean of its days over their standard deviation;
- strain: its sum times its monotony.

After Foster et al., J Strength Cond Res 15 (2001) 109, from memory: we hadn't the print at hand.
The deviation is that of a sample, with n - 1 = 6 below the line: seven days are a sample of how
somebody trains, and it is what a spreadsheet's STDEV gives, by which such figures are mostly worked
out. With 7 below the line monotony and strain would be 8 % higher.

They say how somebody's weeks compare with their own. They predict no injury.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from statistics import mean, stdev
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from classclock.records.attendance import WEEKS, first_day, monday_of

BEFORE = 4
"""With so many weeks before it a week is compared."""
FAR = 1.5
"""So much above the hardest of them, or below the easiest, is far. Common practice, no source."""
DAYS = 7
Far = Literal["above", "below", ""]


class ClassFelt(Struct, frozen=True):
    """A class that somebody came to, as they felt it."""

    class_key: str
    """Which class; `ROOM/JOURNAL`."""
    person: str
    """As whom it recorded them; `ROOM/ID`."""
    day: str
    title: str
    effort: int | None
    """0 to 10; None where they didn't say."""
    here_s: int | None
    """Seconds from the class's first start to its last end, or until they left; None: not known."""

    @property
    def effort_minutes(self) -> int | None:
        """To the nearest whole one."""
        if self.effort is None or self.here_s is None:
            return None
        return (self.effort * self.here_s + 30) // 60


class EffortWeek(Struct, frozen=True):
    """A week from Monday to Sunday, as ISO 8601 counts them."""

    monday: date
    days: tuple[int | None, ...]
    """Effort minutes, Monday first; None where somebody came and didn't say how hard it was."""
    classes: int
    over: bool
    """Whether none of its days is still to come."""
    far: Far = ""
    """Whether it is far above or below all of the person's own last four weeks."""

    @property
    def effort_minutes(self) -> int | None:
        """Their sum; None where a class is among them of which that isn't known."""
        known = self._known
        return None if known is None else sum(known)

    @property
    def monotony(self) -> float | None:
        """None where the days are all alike, one isn't known, or one is still to come."""
        return monotony(self._known) if self.over and self._known is not None else None

    @property
    def strain(self) -> float | None:
        """Effort minutes; None where there is no monotony."""
        even, total = self.monotony, self.effort_minutes
        return None if even is None or total is None else total * even

    @property
    def _known(self) -> tuple[int, ...] | None:
        known = tuple(day for day in self.days if day is not None)
        return known if len(known) == len(self.days) else None


def monotony(days: Sequence[int]) -> float | None:
    """The mean of a week's days over their standard deviation (that of a sample).

    None where that is 0.
    """
    spread = stdev(days)
    return mean(days) / spread if spread else None


def effort_weeks(
    classes: Iterable[ClassFelt], today: date, count: int = WEEKS
) -> tuple[EffortWeek, ...]:
    """The last `count` weeks, this one last. `classes` are those since `first_day` of as many."""
    by_day: dict[str, list[ClassFelt]] = defaultdict(list)
    for one in classes:
        by_day[one.day].append(one)
    first = first_day(today, count)
    weeks = [_week(first + timedelta(weeks=n), by_day, today) for n in range(count)]
    return tuple(_compared(week, weeks[max(0, n - BEFORE) : n]) for n, week in enumerate(weeks))


def _week(monday: date, by_day: dict[str, list[ClassFelt]], today: date) -> EffortWeek:
    theirs = [by_day.get((monday + timedelta(n)).isoformat(), []) for n in range(DAYS)]
    return EffortWeek(
        monday,
        tuple(map(_day, theirs)),
        sum(map(len, theirs)),
        over=monday_of(today) > monday or today.weekday() == DAYS - 1,
    )


def _day(classes: Sequence[ClassFelt]) -> int | None:
    known = [minutes for one in classes if (minutes := one.effort_minutes) is not None]
    return sum(known) if len(known) == len(classes) else None


def _compared(week: EffortWeek, before: Sequence[EffortWeek]) -> EffortWeek:
    """A week that goes on may be above already; below it can only be once it is over."""
    sums = [total for one in before if (total := one.effort_minutes) is not None]
    now = week.effort_minutes
    if now is None or len(sums) < BEFORE:
        return week
    if max(sums) and now > FAR * max(sums):
        return replace(week, far="above")
    if week.over and FAR * now < min(sums):
        return replace(week, far="below")
    return week
