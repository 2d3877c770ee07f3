"""What the book is asked: who is in it, what they did, their bests. Values out, no rows."""

import json
from collections.abc import Collection, Mapping
from typing import Any

from msgspec import Struct
from sqlalchemy import Connection, Row, Select, and_, func, select

from classclock.book.tables.schema import athletes, bests, classes, lifts, results, seen
from classclock.records.result import Result, Terms
from classclock.tally.lanes import Mark


class Athlete(Struct, frozen=True):
    """Somebody in the book. Days are as in 2026-11-24, empty before the first class."""

    id: str
    name: str
    key: str
    marks: tuple[Mark, ...]
    classes: int
    first_day: str
    last_day: str


class Best(Struct, frozen=True):
    """An athlete's best on a benchmark under some terms."""

    result: Result
    times: int
    """How often they did it so."""
    last_moment: int
    """When they last did it so."""


class LiftBest(Struct, frozen=True):
    """The heaviest load that an athlete made for so many reps."""

    lift: str
    reps: int | None
    load: str
    day: str


def all_athletes(connection: Connection) -> tuple[Athlete, ...]:
    """Everybody, in the order of their names."""
    found = (_athlete(row) for row in connection.execute(select(athletes)))
    return tuple(sorted(found, key=lambda one: (one.name.casefold(), one.id)))


def find(connection: Connection, who: str) -> tuple[Athlete, ...]:
    """Those called so; case makes no difference. An id finds its own."""
    wanted = who.strip().casefold()
    everybody = all_athletes(connection)
    return tuple(one for one in everybody if one.id == who) or tuple(
        one for one in everybody if one.name.casefold() == wanted
    )


def _athlete(row: Row[Any]) -> Athlete:
    return Athlete(
        row.athlete,
        row.name,
        row.key,
        tuple(json.loads(row.marks)),
        row.classes,
        row.first_day,
        row.last_day,
    )


def best_rows(
    connection: Connection, of: Collection[str] | None = None
) -> dict[tuple[str, str], tuple[Best, ...]]:
    """Bests by athlete's id and benchmark, the terms used last first; of some, or everybody."""
    asked = select(*(bests.c[name] for name in _BEST))
    if of is not None:
        asked = asked.where(bests.c.athlete.in_(of))
    found: dict[tuple[str, str], list[Best]] = {}
    # Taken apart by place: a club's chart has thousands of these.
    for (
        athlete,
        benchmark,
        piece,
        day,
        moment,
        score,
        kind,
        worth,
        reps,
        *rest,
    ) in connection.execute(asked):
        modification, loads, work, team, times, last = rest
        terms = Terms(modification, loads, work, team)
        result = Result(athlete, piece, benchmark, day, moment, score, kind, worth, reps, terms)
        found.setdefault((athlete, benchmark), []).append(Best(result, times, last))
    return {key: tuple(sorted(group, key=_last_used_first)) for key, group in found.items()}


_BEST = (
    *("athlete", "benchmark", "name", "day", "moment", "score", "kind", "worth", "total_reps"),
    *("modification", "loads", "work", "team", "times", "last_moment"),
)


def _last_used_first(best: Best) -> tuple[Any, ...]:
    terms = best.result.terms
    return (-best.last_moment, terms.modification, terms.loads, terms.work, terms.team)


def history(
    connection: Connection, of: Collection[str], benchmarks: Collection[str]
) -> dict[tuple[str, str], tuple[Result, ...]]:
    """All results by athlete's id and benchmark, the earliest first."""
    asked = select(results).where(results.c.athlete.in_(of), results.c.benchmark.in_(benchmarks))
    found: dict[tuple[str, str], list[Result]] = {}
    for row in connection.execute(_in_order(asked)):
        found.setdefault((row.athlete, row.benchmark), []).append(result_of(row))
    return {key: tuple(group) for key, group in found.items()}


def _in_order(asked: Select[Any]) -> Select[Any]:
    place = (results.c.class_key, results.c.piece, results.c.lane, results.c.person)
    return asked.order_by(results.c.moment, *place)


def result_of(row: Row[Any]) -> Result:
    """A row of the results as a value."""
    return Result(
        athlete=row.athlete,
        piece=row.name,
        benchmark=row.benchmark,
        day=row.day,
        moment=row.moment,
        score=row.score,
        kind=row.kind,
        worth=row.worth,
        total_reps=row.total_reps,
        terms=Terms(row.modification, row.loads, row.work, row.team),
        why_not=row.why_not,
        splits=tuple(json.loads(row.splits)),
        round_reps=tuple(json.loads(row.round_reps)),
    )


def days_attended(connection: Connection, athlete: str, since: str) -> tuple[str, ...]:
    """The day of each class that somebody came to, from this day on."""
    asked = select(seen.c.day).where(seen.c.athlete == athlete, seen.c.came, seen.c.day >= since)
    return tuple(row.day for row in connection.execute(asked.order_by(seen.c.day)))


def usual_modifications(
    connection: Connection, athlete: str, since: str
) -> tuple[tuple[str, int], ...]:
    """What somebody modified since that day, and how often: the most usual first."""
    asked = (
        select(results.c.modification, func.count().label("times"))
        .where(results.c.athlete == athlete, results.c.day >= since)
        .where(results.c.modification != "")
        .group_by(results.c.modification)
    )
    found = [(row.modification, row.times) for row in connection.execute(asked)]
    return tuple(sorted(found, key=lambda one: (-one[1], one[0])))


def lift_bests(connection: Connection, athlete: str) -> tuple[LiftBest, ...]:
    """The heaviest made in each lift for each number of reps; of equals the earliest."""
    made = and_(lifts.c.athlete == athlete, lifts.c.made)
    place = func.row_number().over(
        partition_by=(lifts.c.lift, lifts.c.reps),
        order_by=(lifts.c.worth.desc(), lifts.c.moment, lifts.c.number),
    )
    ranked = select(lifts, place.label("place")).where(made).subquery()
    found = connection.execute(select(ranked).where(ranked.c.place == 1))
    every = [LiftBest(row.lift, row.reps, row.load, row.day) for row in found]
    return tuple(sorted(every, key=lambda one: (one.lift, one.reps or 0)))


def last_options(
    connection: Connection, since: int
) -> dict[str, Mapping[str, tuple[str | None, ...]]]:
    """By athlete's id and piece, for each station their own option used last; None is as written.

    `since` is the moment from which classes are looked at, in milliseconds since 1970.
    """
    recent = select(classes.c.class_key).where(classes.c.moment >= since)
    asked = (
        select(results.c.athlete, results.c.called, results.c.own_options)
        .where(results.c.class_key.in_(recent))
        .order_by(results.c.moment.desc(), results.c.lane)
    )
    latest: dict[tuple[str, str], str] = {}
    for athlete, called, options in connection.execute(asked):
        latest.setdefault((athlete, called), options)
    found: dict[str, dict[str, tuple[str | None, ...]]] = {}
    for (athlete, called), options in latest.items():
        found.setdefault(athlete, {})[called] = tuple(json.loads(options))
    return dict(found)
