"""Who hasn't come for weeks: since when, and what they did most often. Values, from the book.

For the coach: who stays away is nobody else's, so it is no page to print.
"""

from datetime import date, timedelta

from msgspec import Struct
from sqlalchemy import Connection

from classclock.book.tables.days import most_done
from classclock.book.tables.queries import Athlete, all_athletes

WEEKS = 3
"""After so many a coach asks. Common practice, no source."""
LONG = 52
"""Whoever hasn't come for so many weeks is counted, not named. Common practice, no source."""
_MOST = 3
"""What is named of all that somebody did."""


class Away(Struct, frozen=True):
    athlete: Athlete
    weeks: int
    """Whole weeks since their last class."""
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
    came = [one for one in all_athletes(connection) if one.classes]
    away = [(one, _weeks_since(one, today)) for one in came]
    away = [(one, gone) for one, gone in away if gone >= weeks]
    shown = [(one, gone) for one, gone in away if everybody or gone < max(LONG, weeks + 1)]
    since = min((one.last_day for one, _ in shown), default="")
    until = (today - timedelta(weeks=weeks)).isoformat()
    most = most_done(connection, since, until) if shown else {}
    shown.sort(key=lambda one: one[0].last_day, reverse=True)
    people = (Away(one, gone, most.get(one.id, ())[:_MOST]) for one, gone in shown)
    return AwayPage(weeks, tuple(people), len(away) - len(shown), bool(came))


def _weeks_since(athlete: Athlete, today: date) -> int:
    return (today - date.fromisoformat(athlete.last_day)).days // 7
