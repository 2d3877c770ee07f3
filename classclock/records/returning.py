"""Who comes back after weeks, and who is in their first four weeks: told from the days they came.

Two weeks or more between two classes are a break; so is the time before somebody's very first
class. For four weeks after it, the joint consensus guidelines of CSCCa and NSCA (Strength Cond J
41(3) (2019) 1) hold conditioning volume lower than usual by at least 50, then 30, 20 and 10 %.
They were written for college athletes. The rule by that name was seen in a secondary copy; which
week has which number is from memory.

Whoever breaks off again in these weeks begins anew, and what was usual stays what was done before
the first break: a share of a share would be less each time.
"""

from datetime import date, timedelta
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

BREAK = timedelta(days=14)
"""So long without a class, and coming back is a return."""
LOWER = (50, 30, 20, 10)
"""By at least so many percent conditioning volume is lower, week by week after a break."""
_WEEK = timedelta(days=7)
_FIRST_WEEKS = len(LOWER) * _WEEK


class FirstWeeks(Struct, frozen=True):
    """Somebody in their first four weeks, of all or since they came back."""

    since: date
    """The first day of these weeks, and the first class in them."""
    week: int
    """Which of them it is, from 1."""
    away: timedelta | None
    """How long the break was; None for who is new and had none."""
    usual_until: date | None
    """The last day of what was usual; None for who is new, to whom nothing is."""

    @property
    def lower(self) -> int:
        """By at least so many percent conditioning volume is lower than usual."""
        return LOWER[self.week - 1]

    @property
    def weeks_away(self) -> int:
        """The break in whole weeks, rounded down; 0 where there was none."""
        return 0 if self.away is None else self.away // _WEEK


class Attended(Struct, frozen=True):
    """When somebody came, as far back as was looked."""

    days: tuple[date, ...] = ()
    """In any order, some perhaps more than once; of a time before, the last one will do."""
    new: bool = False
    """Whether nobody knew them before the first of these days, or knows them yet."""


def first_weeks(attended: Attended, today: date) -> FirstWeeks | None:
    """Where somebody who comes today stands; None where they have come long enough."""
    first, *_ = days = sorted({today, *(day for day in attended.days if day < today)})
    stands = FirstWeeks(first, 1, None, None) if attended.new else None
    for before, day in pairwise(days):
        if day - before >= BREAK:
            within = stands is not None and before - stands.since < _FIRST_WEEKS
            usual_until = stands.usual_until if within and stands is not None else before
            stands = FirstWeeks(day, 1, day - before, usual_until)
    if stands is None or today - stands.since >= _FIRST_WEEKS:
        return None
    return replace(stands, week=(today - stands.since) // _WEEK + 1)
