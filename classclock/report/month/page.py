"""A month on one page: who came how often, and what there is to tell. Values, from the book."""

from collections.abc import Collection, Mapping, Sequence
from datetime import date

from msgspec import Struct
from sqlalchemy import Connection

from classclock.book.goals.standing import goals_reached
from classclock.book.tables.days import (
    bests_before,
    counted_between,
    first_came_between,
    held_between,
)
from classclock.book.tables.queries import Athlete, all_athletes
from classclock.records.month import Month
from classclock.records.result import Result
from classclock.report.month.news import NEWS, Done, Happened, News, NewsKind


class CameOften(Struct, frozen=True):
    athlete: Athlete
    times: int


class MonthPage(Struct, frozen=True):
    month: Month
    so_far: bool
    """Whether it isn't over."""
    classes: int
    visits: int
    """How often somebody of the book came, those who aren't on the page too."""
    people: int
    """How many they were."""
    visitors: int
    """How often somebody came without a name."""
    came: tuple[CameOften, ...]
    """Who came most often first."""
    news: tuple[tuple[NewsKind, tuple[News, ...]], ...]
    """Each kind of which there is any."""
    left_out: int
    """How many there would be something to say of, but that they are kept off the wall."""


def month_page(
    connection: Connection, month: Month, today: date, named: Collection[str] = ()
) -> MonthPage:
    """The month as the book has it today.

    `named`: the ids of those who are on it though they are kept off the wall.
    """
    since, until = month.first.isoformat(), month.last.isoformat()
    held = held_between(connection, since, until)
    first_came = frozenset(first_came_between(connection, since, until))
    done = _done(bests_before(connection, since, until), counted_between(connection, since, until))
    there = {*held.came, *done}
    everybody = [one for one in all_athletes(connection) if one.id in there]
    people = tuple(one for one in everybody if one.id in named or not one.off_the_wall)
    happened = Happened(people, first_came, done, goals_reached(connection, since, until))
    came = (CameOften(one, held.came[one.id]) for one in people if one.id in held.came)
    told = ((kind, tuple(kind.told(happened))) for kind in NEWS)
    return MonthPage(
        month,
        month.last >= today,
        held.classes,
        sum(held.came.values()),
        len(held.came),
        held.visitors,
        tuple(sorted(came, key=lambda one: -one.times)),
        tuple((kind, news) for kind, news in told if news),
        len(everybody) - len(people),
    )


def _done(before: Sequence[Result], results: Sequence[Result]) -> Mapping[str, Mapping[str, Done]]:
    stood = _by_benchmark(before)
    found: dict[str, dict[str, Done]] = {}
    for (athlete, benchmark), theirs in sorted(_by_benchmark(results).items()):
        earlier = tuple(stood.get((athlete, benchmark), ()))
        found.setdefault(athlete, {})[benchmark] = Done(earlier, tuple(theirs))
    return found


def _by_benchmark(results: Sequence[Result]) -> dict[tuple[str, str], list[Result]]:
    found: dict[tuple[str, str], list[Result]] = {}
    for one in results:
        found.setdefault((one.athlete, one.benchmark), []).append(one)
    return found
