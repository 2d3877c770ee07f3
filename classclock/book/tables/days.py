"""What the book is asked about some days: who came, and what they did. Days are in ISO 8601."""

from collections.abc import Collection, Sequence
from typing import Any

from msgspec import Struct
from sqlalchemy import Connection, Select, String, cast, distinct, func, select, union

from classclock.book.files.import_lines import Import
from classclock.book.people_ids import entry_said, said_in
from classclock.book.tables.opening import asking_room
from classclock.book.tables.queries import best_rows
from classclock.book.tables.schema import athletes, bests, changes, classes, results, seen
from classclock.records.benchmark_headings import headings
from classclock.records.result import Result, Terms

_NEVER = "9999-12-31"


class DaysHeld(Struct, frozen=True):
    """What was held on some days, and who came."""

    classes: int
    """Those of other books that were imported too, and each day that only an import tells of."""
    visitors: int
    """How often somebody came without a name."""
    came: dict[str, int]
    """By athlete's id, how often."""


def held_between(connection: Connection, since: str, until: str) -> DaysHeld:
    """The classes of these days, the first and the last too.

    An imported result says that somebody came on its day: once, and only where nothing else says
    that they came then.
    """
    room, theirs = asking_room(connection), classes.c.day.between(since, until)
    counted = select(func.count(), func.coalesce(func.sum(classes.c.visitors), 0)).where(theirs)
    number, visitors = connection.execute(counted).one()
    # Two entries that were merged may be in one class: nobody is in two of one moment.
    often = func.count(distinct(seen.c.moment))
    came = (
        select(seen.c.athlete, often.label("times"))
        .where(seen.c.came, seen.c.day.between(since, until))
        .group_by(seen.c.athlete)
    )
    found = {said_in(room, athlete): times for athlete, times in connection.execute(came)}
    told = connection.execute(_days_told_by_results_alone(since, until)).all()
    for athlete, _ in told:
        found[said_in(room, athlete)] = found.get(said_in(room, athlete), 0) + 1
    asked = select(classes.c.moment, classes.c.day).where(theirs)
    held = {(moment, day) for moment, day in connection.execute(asked)}
    elsewhere = _came_at(connection, since, until) - held
    days = {day for _, day in told} - {day for _, day in held | elsewhere}
    return DaysHeld(number + len(elsewhere) + len(days), visitors, found)


def _came_at(connection: Connection, since: str, until: str) -> set[tuple[int, str]]:
    """The moments, each with its day, at which somebody came: to a class here or elsewhere."""
    came = select(seen.c.moment, seen.c.day).where(seen.c.came, seen.c.day.between(since, until))
    return {(moment, day) for moment, day in connection.execute(came.distinct())}


def _days_told_by_results_alone(since: str, until: str) -> Select[Any]:
    """Who has imported results of which day, without having come to a class then."""
    came = (
        select(seen.c.athlete)
        .where(seen.c.athlete == results.c.athlete, seen.c.came)
        .where(seen.c.day == results.c.day)
    )
    return (
        select(results.c.athlete, results.c.day)
        .where(results.c.class_key.in_(_imports()), results.c.day.between(since, until))
        .where(~came.exists())
        .distinct()
    )


def first_came_between(connection: Connection, since: str, until: str) -> tuple[str, ...]:
    """The ids of those whose first class was on one of these days.

    Who has older scores from another club's or an earlier record isn't new.
    """
    older = (
        select(seen.c.athlete)
        .where(seen.c.athlete == athletes.c.athlete, ~seen.c.came)
        .where(seen.c.day < athletes.c.first_day)
    )
    asked = select(athletes.c.athlete).where(
        athletes.c.first_day.between(since, until), ~older.exists()
    )
    room = asking_room(connection)
    return tuple(said_in(room, row.athlete) for row in connection.execute(asked))


def counted_between(connection: Connection, since: str, until: str) -> tuple[Result, ...]:
    """All results of these days that can be a best, the earliest first."""
    asked = select(*(results.c[name] for name in _RESULT)).where(*_counted_in(since, until))
    place = (results.c.moment, results.c.class_key, results.c.piece, results.c.lane)
    return _results(connection, asked.order_by(*place, results.c.person))


def bests_before(connection: Connection, since: str, until: str) -> tuple[Result, ...]:
    """What those who did a benchmark between these days had done best before, by all its terms."""
    done = (
        select(results.c.athlete, results.c.benchmark)
        .where(*_counted_in(since, until))
        .distinct()
        .subquery()
    )
    terms = ("athlete", "benchmark", "terms")
    order = (results.c.worth.desc(), results.c.moment, results.c.class_key, results.c.piece)
    ranked = (
        select(
            *(results.c[name] for name in _RESULT),
            func.row_number()
            .over(partition_by=[results.c[name] for name in terms], order_by=order)
            .label("place"),
        )
        .join_from(
            done,
            results,
            (results.c.athlete == done.c.athlete) & (results.c.benchmark == done.c.benchmark),
        )
        .where(results.c.counts, results.c.day < since)
        .subquery()
    )
    best = select(*(ranked.c[name] for name in _RESULT)).where(ranked.c.place == 1)
    return _results(connection, best)


_RESULT = (
    *("athlete", "name", "benchmark", "day", "moment", "score", "kind", "worth", "total_reps"),
    *("modification", "loads", "work", "team", "written"),
)


def _results(connection: Connection, asked: Select[Any]) -> tuple[Result, ...]:
    """Results that can be a best, without their splits."""
    room = asking_room(connection)
    found = []
    # Taken apart by place: a busy month has thousands of these.
    for athlete, piece, benchmark, day, moment, score, kind, worth, *rest in connection.execute(
        asked
    ):
        reps, modification, loads, work, team, written = rest
        terms, who = Terms(modification, loads, work, team), said_in(room, athlete)
        found.append(
            Result(
                *(who, piece, benchmark, day, moment, score, kind, worth, reps, terms),
                written=written,
            )
        )
    return tuple(found)


def last_seen(connection: Connection) -> dict[str, tuple[str, int]]:
    """By athlete's id the last day on which somebody came, and how often they have come.

    Also to what only imported results tell of: each of their days once.
    """
    room, days = asking_room(connection), _days_told_by_results_alone("", _NEVER).subquery()
    asked = select(days.c.athlete, func.max(days.c.day), func.count()).group_by(days.c.athlete)
    told = {athlete: (day, times) for athlete, day, times in connection.execute(asked)}
    came = select(athletes.c.athlete, athletes.c.last_day, athletes.c.classes)
    found = {}
    for athlete, day, times in connection.execute(came):
        last, more = told.get(athlete, ("", 0))
        if times or more:
            found[said_in(room, athlete)] = (max(day, last), times + more)
    return found


def most_done(
    connection: Connection, of: Collection[str]
) -> dict[str, tuple[tuple[str, int], ...]]:
    """By athlete's id what these did, as the club calls it, and how often.

    Their benchmarks and lifts, as far as they count; else the pieces that they were in. What was
    done most often comes first.
    """
    room, entries = (
        asking_room(connection),
        [entry_said(asking_room(connection), one) for one in of],
    )
    found: dict[str, list[tuple[str, int]]] = {}
    for (athlete, _), group in best_rows(connection, of).items():
        (called,) = headings(best.result for best in group).values()
        found.setdefault(athlete, []).append((called, sum(best.times for best in group)))
    others = (
        select(results.c.athlete, results.c.name, func.count())
        .where(results.c.athlete.in_(entries))
        .where(~select(bests).where(bests.c.athlete == results.c.athlete).exists())
        .group_by(results.c.athlete, results.c.name)
    )
    for athlete, what, times in connection.execute(others):
        found.setdefault(said_in(room, athlete), []).append((what, int(times)))
    return {
        athlete: tuple(sorted(done, key=lambda one: (-one[1], one[0])))
        for athlete, done in found.items()
    }


def _counted_in(since: str, until: str) -> Sequence[Any]:
    """The results that count of these days, found by their classes and by what was imported."""
    return (
        results.c.class_key.in_(_keys(since, until)),
        results.c.day.between(since, until),
        results.c.counts,
    )


def _keys(since: str, until: str) -> Select[Any]:
    held = select(classes.c.class_key).where(classes.c.day.between(since, until))
    either = union(held, _imports()).subquery()
    return select(either.c.class_key)


def _imports() -> Select[Any]:
    """The class keys of what was imported."""
    imported = changes.c.room + "/import-" + cast(changes.c.n, String)
    return select(imported.label("class_key")).where(changes.c.kind == Import.__struct_config__.tag)
