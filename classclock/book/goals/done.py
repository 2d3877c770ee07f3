"""What athletes did on some benchmarks, as far as it counts: all that a goal may ask for."""

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, Select, and_, or_, select

from classclock.book.people_ids import entry_said, said_in
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import lifts, results
from classclock.plan.amounts import rep_words
from classclock.records.result import Result, Terms

ResultsByBenchmark = dict[tuple[str, str], tuple[Result, ...]]
"""By athlete's id and benchmark, the earliest first."""
WantedOf = Mapping[str, Collection[str]]
"""By athlete's id, some benchmarks."""
_AT_ONCE = 50
"""Athletes whose scores are asked for together."""


def counted_towards(connection: Connection, wanted: WantedOf) -> ResultsByBenchmark:
    """All their scores that can be a best, without their splits."""
    names = (
        *("athlete", "name", "benchmark", "day", "moment", "score", "kind", "worth"),
        *("total_reps", "modification", "loads", "work", "team"),
    )
    asked = select(*(results.c[name] for name in names)).where(results.c.counts)
    room = asking_room(connection)
    found: dict[tuple[str, str], list[Result]] = {}
    # Taken apart by place: somebody who comes for years has thousands of these.
    for row in _each(connection, asked, results.c.moment, room, wanted):
        athlete, piece, benchmark, day, moment, score, kind, *rest = tuple(row)
        worth, reps, modification, loads, work, team = rest
        terms, who = Terms(modification, loads, work, team), said_in(room, athlete)
        one = Result(who, piece, benchmark, day, moment, score, kind, worth, reps, terms)
        found.setdefault((who, benchmark), []).append(one)
    return {key: tuple(each) for key, each in found.items()}


def sets_made(connection: Connection, wanted: WantedOf) -> ResultsByBenchmark:
    """Every set of theirs that was made, as `set_bests` takes them: settled ones.

    A class's score in a lift is its heaviest set alone, and a goal may ask for one of more reps.
    """
    room = asking_room(connection)
    same = (results.c[name] == lifts.c[name] for name in ("class_key", "piece", "lane", "person"))
    names = ("athlete", "name", "benchmark", "written", "modification", "loads", "team")
    made = ("reps", "load", "worth", "day", "moment")
    asked = (
        select(*(results.c[name] for name in names), *(lifts.c[name] for name in made))
        .join_from(results, lifts, and_(*same))
        .where(results.c.counts, results.c.kind == "load")
        .where(lifts.c.made, lifts.c.settled, lifts.c.reps.is_not(None))
    )
    found: dict[tuple[str, str], list[Result]] = {}
    for row in _each(connection, asked, lifts.c.moment, room, wanted):
        who = said_in(room, row.athlete)
        one = Result(
            athlete=who,
            piece=row.name,
            benchmark=row.benchmark,
            day=row.day,
            moment=row.moment,
            score=row.load,
            kind="load",
            worth=row.worth,
            total_reps=None,
            terms=Terms(row.modification, row.loads, rep_words(row.reps), row.team),
            written=row.written,
        )
        found.setdefault((who, row.benchmark), []).append(one)
    return {key: tuple(sets) for key, sets in found.items()}


def _each(
    connection: Connection,
    asked: Select[Any],
    moment: ColumnElement[int],
    room: str,
    wanted: WantedOf,
) -> Iterator[Row[Any]]:
    """The rows of these athletes on these benchmarks alone, by the index, the earliest first."""
    every = [
        and_(results.c.athlete == entry_said(room, who), results.c.benchmark.in_(benchmarks))
        for who, benchmarks in wanted.items()
    ]
    for first in range(0, len(every), _AT_ONCE):
        some = asked.where(or_(*every[first : first + _AT_ONCE]))
        yield from connection.execute(some.order_by(moment)).all()
