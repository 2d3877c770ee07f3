"""What the book works out from its records: athletes and bests, for some or for everybody."""

import json
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    Select,
    Table,
    and_,
    delete,
    distinct,
    func,
    insert,
    select,
)

from classclock.book.people_rules import PeopleRules
from classclock.book.schema import athletes, bests, results, seen

_TERMS = ("modification", "loads", "work", "team")


@dataclass(slots=True)
class Touched:
    """Whose numbers changed, and in which benchmarks."""

    athletes: set[str] = field(default_factory=set)
    benchmarks: set[str] = field(default_factory=set)
    in_all: bool = False
    """Whether it may be any benchmark of theirs."""

    def add(self, athlete: str, benchmark: str = "") -> None:
        self.athletes.add(athlete)
        if benchmark:
            self.benchmarks.add(benchmark)

    def update(self, other: "Touched") -> None:
        self.athletes |= other.athletes
        self.benchmarks |= other.benchmarks
        self.in_all |= other.in_all

    def within(self, table: Table) -> ColumnElement[bool]:
        """The rows of a table that tell of them."""
        theirs = table.c.athlete.in_(self.athletes)
        return theirs if self.in_all else and_(theirs, table.c.benchmark.in_(self.benchmarks))


def derive(connection: Connection, rules: PeopleRules, touched: Touched | None = None) -> None:
    """Work out athletes and bests anew; of everybody, unless told whose changed."""
    _derive_athletes(connection, rules, touched)
    _derive_bests(connection, touched)


def _derive_athletes(connection: Connection, rules: PeopleRules, touched: Touched | None) -> None:
    gone = delete(athletes)
    if touched is not None:
        gone = gone.where(athletes.c.athlete.in_(touched.athletes))
    connection.execute(gone)
    rows = [
        {
            "athlete": row.athlete,
            "name": rules.names.get(row.athlete, row.name),
            "key": row.key,
            "marks": json.dumps(rules.marks.get(row.athlete, ())),
            "classes": row.classes,
            "first_day": row.first_day or "",
            "last_day": row.last_day or "",
        }
        for row in connection.execute(_latest_seen(touched))
    ]
    if rows:
        connection.execute(insert(athletes), rows)


def _latest_seen(touched: Touched | None) -> Select[Any]:
    """A row an athlete: how often they came, and how the latest class called them.

    An import names somebody only until they have come to a class.
    """
    some: ColumnElement[bool] | None = None
    if touched is not None:
        some = seen.c.athlete.in_(touched.athletes)
    counted = select(
        seen.c.athlete,
        func.count(distinct(seen.c.class_key)).label("classes"),
        func.min(seen.c.day).label("first_day"),
        func.max(seen.c.day).label("last_day"),
    ).where(seen.c.came)
    latest = select(seen.c.athlete, func.max(seen.c.moment).label("moment"), seen.c.came)
    if some is not None:
        counted, latest = counted.where(some), latest.where(some)
    by_athlete = counted.group_by(seen.c.athlete).subquery()
    at = latest.group_by(seen.c.athlete, seen.c.came).subquery()
    order = (seen.c.came.desc(), seen.c.class_key.desc(), seen.c.person == seen.c.athlete)
    place = func.row_number().over(
        partition_by=seen.c.athlete, order_by=(*order[:2], order[2].desc(), seen.c.person)
    )
    named = (
        select(seen.c.athlete, seen.c.name, seen.c.key, place.label("place"))
        .join(
            at,
            and_(
                seen.c.athlete == at.c.athlete,
                seen.c.came == at.c.came,
                seen.c.moment == at.c.moment,
            ),
        )
        .subquery()
    )
    return (
        select(
            named.c.athlete,
            named.c.name,
            named.c.key,
            func.coalesce(by_athlete.c.classes, 0).label("classes"),
            by_athlete.c.first_day,
            by_athlete.c.last_day,
        )
        .outerjoin(by_athlete, named.c.athlete == by_athlete.c.athlete)
        .where(named.c.place == 1)
    )


def _derive_bests(connection: Connection, touched: Touched | None) -> None:
    """The best for each athlete, benchmark and terms: as `bests.best_of` has it."""
    gone, some = delete(bests), and_(results.c.counts)
    if touched is not None:
        gone, some = gone.where(touched.within(bests)), and_(some, touched.within(results))
    connection.execute(gone)
    group = [results.c[name] for name in ("athlete", "benchmark", *_TERMS)]
    order = (results.c.worth.desc(), results.c.moment, results.c.class_key, results.c.piece)
    ranked = (
        select(
            *group,
            *(results.c[name] for name in ("name", "score", "kind", "worth", "total_reps")),
            results.c.day,
            results.c.moment,
            func.count().over(partition_by=group).label("times"),
            func.max(results.c.moment).over(partition_by=group).label("last_moment"),
            func.row_number()
            .over(partition_by=group, order_by=(*order, results.c.lane, results.c.person))
            .label("place"),
        )
        .where(some)
        .subquery()
    )
    columns = [column.name for column in bests.columns]
    best = select(*(ranked.c[name] for name in columns)).where(ranked.c.place == 1)
    connection.execute(insert(bests).from_select(columns, best))
