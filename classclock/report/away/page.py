"""Who hasn't come for weeks: since when, and what they did most often. Values, from the book.

For the coach: who stays away is nobody else's, so it is no page to print.
"""

from datetime import date

from msgspec import Struct
from sqlalchemy import Connection

from classclock.book.tables.days import last_seen, most_done
from classclock.book.tables.queries import Athlete, all_athletes

WEEKS = 3
"""After so many a coach asks. Common practice, no source."""
LONG = 52
"""Whoever hasn't come for so many weeks is counted, not named. Common practice, no source."""
_MOST = 3
"""What is named of all that somebody did."""


class Away(Struct, frozen=True):
    athlete: Athlete
    last_day: str
    """When they last came, as far as the book knows: an imported result says so too."""
    times: int
    """How often they came."""
    weeks: int
    """Whole weeks since then."""
    most: tuple[tuple[str, int], ...]
    """What they did most often, and how often."""


class AwayPage(Struct, frozen=True):
    weeks: int
    people: tuple[Away, ...]
    """Who came last first."""
    longer: int
    """How many are left out, since they haven't come for `LONG` weeks."""
    anybody: bool
    """Whether anybody ever came."""


def away_page(
    connection: Connection, today: date, weeks: int = WEEKS, *, everybody: bool = False
) -> AwayPage:
    """Who last came that many weeks ago or longer; of those of long ago the number, or all."""
    last = last_seen(connection)
    came = [(one, *last[one.id]) for one in all_athletes(connection) if one.id in last]
    away = [(*one, gone) for one in came if (gone := _weeks_since(one[1], today)) >= weeks]
    away.sort(key=lambda one: one[1], reverse=True)
    shown = [one for one in away if everybody or one[-1] < max(LONG, weeks + 1)]
    most = most_done(connection, [athlete.id for athlete, *_ in shown])
    people = (
        Away(athlete, day, times, gone, most.get(athlete.id, ())[:_MOST])
        for athlete, day, times, gone in shown
    )
    return AwayPage(weeks, tuple(people), len(away) - len(shown), bool(came))


def _weeks_since(day: str, today: date) -> int:
    return (today - date.fromisoformat(day)).days // 7
