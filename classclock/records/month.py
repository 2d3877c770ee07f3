"""A month of the calendar, as it is asked for."""

import re
from calendar import monthrange
from datetime import date

from msgspec import Struct

from classclock.records.bests import month_words

_WRITTEN = re.compile(r"([0-9]{4})-([0-9]{2})")


class Month(Struct, frozen=True):
    first: date
    """Its first day."""

    @property
    def last(self) -> date:
        return self.first.replace(day=monthrange(self.first.year, self.first.month)[1])

    @property
    def words(self) -> str:
        """`November 2026`."""
        return month_words(self.first)

    def __str__(self) -> str:
        """As it is written: `2026-11`."""
        return self.first.isoformat()[:7]


def month_of(day: date) -> Month:
    return Month(day.replace(day=1))


def read_month(written: str) -> Month:
    """A month as it is written, `2026-11`.

    Raises:
        ValueError: it is none.
    """
    found = _WRITTEN.fullmatch(written)
    if found is None:
        raise ValueError(f"{written} is no month")
    return Month(date(int(found[1]), int(found[2]), 1))
