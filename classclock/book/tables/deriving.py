"""What the book works out from its records: athletes and bests, for those that are named."""

import json
from collections.abc import Sequence
from typing import Any

from msgspec import Struct, field
from sqlalchemy import (
    ColumnElement,
    Connection,
    Row,
    Select,
    Table,
    and_,
    delete,
    distinct,
    func,
    insert,
    or_,
    select,
)

from classclock.book.people_rules import PeopleRules
from classclock.book.tables.schema import (
    athletes,
    bests,
    lifts,
    results,
    seen,
    set_bests,
    to_derive,
)

_AT_ONCE = 100
"""Athletes that are asked for together."""
_TERMS = ("modification", "loads", "work", "team")
_LANE = ("class_key", "piece", "lane", "person")
"""By which what was tried stands with its score."""


class Touched(Struct):
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


def derive(connection: Connection, rules: PeopleRules, touched: Touched) -> None:
    """Work out anew the numbers that changed: the rows of athletes, and bests."""
    if not touched.athletes:
        return
    _derive_athletes(connection, rules, touched)
    _derive_bests(connection, touched)
    _derive_set_bests(connection, touched)
    if touched.in_all:
        done = to_derive.c.athlete.in_(touched.athletes)
        connection.execute(delete(to_derive).where(done))


def derive_later(connection: Connection, touched: Touched) -> None:
    """Note whose numbers changed: where many classes go in, they are worked out once for all."""
    noted = set(waiting(connection))
    rows = [{"athlete": athlete} for athlete in sorted(touched.athletes - noted)]
    if rows:
        connection.execute(insert(to_derive), rows)


def waiting(connection: Connection) -> tuple[str, ...]:
    """Those whose numbers have still to be worked out."""
    asked = select(to_derive.c.athlete).order_by(to_derive.c.athlete)
    return tuple(connection.execute(asked).scalars())


def _derive_athletes(connection: Connection, rules: PeopleRules, touched: Touched) -> None:
    connection.execute(delete(athletes).where(athletes.c.athlete.in_(touched.athletes)))
    counted = {row.athlete: row for row in connection.execute(_counted(rules, touched))}
    called = _called(connection, [(row.athlete, row.came, row.last) for row in counted.values()])
    rows = [
        {
            "athlete": athlete,
            "name": rules.names.get(athlete, called[athlete].name),
            "key": called[athlete].key,
            "marks": json.dumps(rules.marks.get(athlete, ())),
            "classes": row.classes if row.came else 0,
            "first_day": row.first_day if row.came else "",
            "last_day": row.last_day if row.came else "",
        }
        for athlete, row in counted.items()
    ]
    if rows:
        connection.execute(insert(athletes), rows)


def _counted(rules: PeopleRules, touched: Touched) -> Select[Any]:
    """How often each athlete came; one who only stands in imports has a row that says so.

    The row with `came` is the last for each. Nobody is in two classes of one moment, but two
    entries that were merged may be: then moments are counted, which takes twice as long.
    """
    asked = select(
        seen.c.athlete,
        seen.c.came,
        (func.count(distinct(seen.c.moment)) if rules.aliases else func.count()).label("classes"),
        func.min(seen.c.day).label("first_day"),
        func.max(seen.c.day).label("last_day"),
        func.max(seen.c.moment).label("last"),
    )
    asked = asked.where(seen.c.athlete.in_(touched.athletes))
    return asked.group_by(seen.c.athlete, seen.c.came).order_by(seen.c.athlete, seen.c.came)


def _called(connection: Connection, latest: Sequence[tuple[str, bool, int]]) -> dict[str, Row[Any]]:
    """How each athlete was called at their latest moment.

    Of two entries that were merged, and came together, the one that was kept says it.
    """
    found: dict[str, Row[Any]] = {}
    for first in range(0, len(latest), _AT_ONCE):
        some = latest[first : first + _AT_ONCE]
        at = (
            and_(seen.c.athlete == athlete, seen.c.came == came, seen.c.moment == moment)
            for athlete, came, moment in some
        )
        for row in connection.execute(select(seen).where(or_(*at))):
            other = found.get(row.athlete)
            if other is None or _prior(row) > _prior(other):
                found[row.athlete] = row
    return found


def _prior(row: Row[Any]) -> tuple[Any, ...]:
    return (row.person == row.athlete, row.class_key, row.person)


def _derive_bests(connection: Connection, touched: Touched) -> None:
    """The best for each athlete, benchmark and terms: as `bests.best_of` has it."""
    some = and_(results.c.counts, touched.within(results))
    connection.execute(delete(bests).where(touched.within(bests)))
    group = [results.c[name] for name in ("athlete", "benchmark", "terms")]
    order = (results.c.worth.desc(), results.c.moment, results.c.class_key, results.c.piece)
    ranked = (
        select(
            *group,
            *(results.c[name] for name in _TERMS),
            *(results.c[name] for name in ("name", "written", "score")),
            *(results.c[name] for name in ("kind", "worth", "total_reps")),
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


def _derive_set_bests(connection: Connection, touched: Touched) -> None:
    """The heaviest made of each number of reps, in whichever set of a score that counts."""
    some = and_(results.c.counts, results.c.kind == "load", touched.within(results))
    connection.execute(delete(set_bests).where(touched.within(set_bests)))
    names = ("athlete", "benchmark", *_TERMS)
    group = [*(results.c[name] for name in names if name != "work"), lifts.c.reps]
    place = ("moment", "class_key", "piece", "lane", "person", "number")
    ranked = (
        select(
            *group,
            results.c.name,
            results.c.written,
            *(lifts.c[name] for name in ("load", "worth", "day", "moment")),
            func.row_number()
            .over(
                partition_by=group,
                order_by=(lifts.c.worth.desc(), *(lifts.c[name] for name in place)),
            )
            .label("place"),
        )
        .join_from(results, lifts, and_(*(results.c[one] == lifts.c[one] for one in _LANE)))
        .where(some, lifts.c.made, lifts.c.settled, lifts.c.reps.is_not(None))
        .subquery()
    )
    columns = [column.name for column in set_bests.columns]
    best = select(*(ranked.c[name] for name in columns)).where(ranked.c.place == 1)
    connection.execute(insert(set_bests).from_select(columns, best))
