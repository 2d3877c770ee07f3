"""Putting a class into the book's tables: what was there of it before goes first."""

import json
from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import lru_cache
from operator import itemgetter
from typing import Any, NamedTuple

from msgspec import Struct, field
from sqlalchemy import Connection, RowMapping, Table, bindparam, delete, insert, select

from classclock.book.people_ids import entry_said
from classclock.book.people_rules import PeopleRules
from classclock.book.tables.deriving import Touched
from classclock.book.tables.schema import RECORDED, classes, lifts, results, seen
from classclock.records.class_entries import ClassEntry, Lift, PieceEntry
from classclock.records.result import load_worth

TableRow = dict[str, Any]
_names = lru_cache(maxsize=4096)(json.dumps)  # a few options come again and again
_KEYS_AT_ONCE = 500


class Whose(NamedTuple):
    """Whom a row tells of."""

    person: str
    """As recorded."""
    athlete: str
    """As merges have it."""


class Rows(Struct):
    """Rows on their way into the book."""

    rules: PeopleRules
    room: str
    """Whose they are."""
    met: dict[str, Whose] = field(default_factory=dict)
    """By their ids those who were met before: the same people come again and again."""
    waiting: defaultdict[Table, list[TableRow]] = field(default_factory=lambda: defaultdict(list))

    def whose(self, said: str) -> Whose:
        """Whom the room's files mean by an id."""
        if said not in self.met:
            person = entry_said(self.room, said)
            self.met[said] = Whose(person, self.rules.athlete(person))
        return self.met[said]

    def add(self, table: Table, row: TableRow) -> None:
        self.waiting[table].append(row)

    def flush(self, connection: Connection) -> None:
        """Send what waits."""
        for table, rows in self.waiting.items():
            if rows:
                # Straight to the driver, by place: naming each parameter takes as long again.
                statement = insert(table).compile(dialect=connection.dialect)
                in_order = itemgetter(*(column.name for column in table.columns))
                connection.exec_driver_sql(str(statement), list(map(in_order, rows)))
                rows.clear()


def take_out(connection: Connection, class_keys: Sequence[str]) -> Touched:
    """Remove all that stands under these keys; whose numbers that changes."""
    touched = Touched()
    for first in range(0, len(class_keys), _KEYS_AT_ONCE):
        some = class_keys[first : first + _KEYS_AT_ONCE]
        came = select(seen.c.athlete).where(seen.c.class_key.in_(some)).distinct()
        did = select(results.c.athlete, results.c.benchmark).where(results.c.class_key.in_(some))
        for row in (*connection.execute(came), *connection.execute(did.distinct())):
            touched.add(*row)
        for table in RECORDED:
            connection.execute(delete(table).where(table.c.class_key.in_(some)))
    return touched


def leave_what_is_there(connection: Connection, rows: Rows, class_keys: Sequence[str]) -> Touched:
    """Of what stands under these keys take out only what isn't among the rows that wait.

    Those that are there already wait no longer. Gives whose numbers it changes: where a class is
    put in again, most of it is as it was.
    """
    touched, told = Touched(), _Told()
    if not class_keys:
        return touched
    for first in range(0, len(class_keys), _KEYS_AT_ONCE):
        some = class_keys[first : first + _KEYS_AT_ONCE]
        for table in RECORDED:
            there = select(table).where(table.c.class_key.in_(some))
            told.add(table, connection.execute(there).mappings())
    wanted = set(class_keys)
    for table in RECORDED:
        in_order = itemgetter(*(column.name for column in table.columns))
        waiting = rows.waiting[table]
        new = {in_order(row) for row in waiting if row["class_key"] in wanted}
        gone = [row for one, row in told.rows[table].items() if one not in new]
        rows.waiting[table] = [row for row in waiting if in_order(row) not in told.rows[table]]
        more = [row for row in rows.waiting[table] if row["class_key"] in wanted]
        _delete(connection, table, gone)
        for row in (*gone, *more):
            if "athlete" in row:
                touched.athletes.add(row["athlete"])
                told.other.add(row["class_key"])
        told.look_at(table, more)
    touched.benchmarks.update(*(told.benchmarks[key] for key in told.other))
    return touched


class _Told(Struct):
    """What the book says of some classes, and what is to be said."""

    rows: dict[Table, dict[tuple[Any, ...], TableRow]] = field(default_factory=dict)
    benchmarks: defaultdict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    """By class key what was done, before or now."""
    other: set[str] = field(default_factory=set)
    """The keys of classes that are otherwise now for somebody."""

    def add(self, table: Table, found: Iterable[RowMapping]) -> None:
        known = self.rows.setdefault(table, {})
        for row in found:
            known[tuple(row.values())] = dict(row)
        self.look_at(table, known.values())

    def look_at(self, table: Table, rows: Iterable[TableRow]) -> None:
        if table is results:
            for row in rows:
                if row["benchmark"]:
                    self.benchmarks[row["class_key"]].add(row["benchmark"])


def _delete(connection: Connection, table: Table, rows: Sequence[TableRow]) -> None:
    if rows:
        keys = [column.name for column in table.primary_key.columns]
        one = delete(table).where(*(table.c[name] == bindparam(f"key_{name}") for name in keys))
        connection.execute(one, [{f"key_{name}": row[name] for name in keys} for row in rows])


def class_rows(rows: Rows, class_key: str, entry: ClassEntry) -> Touched:
    """The rows of one class; whose numbers they change. Who was erased is left out."""
    touched = Touched()
    rows.add(
        classes,
        {
            "class_key": class_key,
            "title": entry.title,
            "started": entry.started,
            "day": entry.day,
            "moment": entry.moment,
            "visitors": entry.visitors,
        },
    )
    who = _who(rows, entry)
    touched.athletes.update(whose.athlete for whose in who.values())
    rows.waiting[seen] += [
        {
            "class_key": class_key,
            "person": who[person.id].person,
            "athlete": who[person.id].athlete,
            "name": person.name,
            "key": person.key,
            "came": True,
            "day": entry.day,
            "moment": entry.moment,
            "effort": person.effort,
            "here_s": person.here_s,
        }
        for person in entry.people
        if person.id in who
    ]
    did = [(who[one.result.athlete], one) for one in entry.entries if one.result.athlete in who]
    touched.benchmarks.update({one.result.benchmark for _, one in did} - {""})
    rows.waiting[results] += [_result_row(whose, class_key, one) for whose, one in did]
    rows.waiting[lifts] += [
        _lift_row(whose, class_key, one, number, lift)
        for whose, one in did
        for number, lift in enumerate(one.lifts)
    ]
    return touched


def _who(rows: Rows, entry: ClassEntry) -> dict[str, Whose]:
    """By their ids the people of a class; who was erased isn't among them."""
    who = {one.id: rows.whose(one.id) for one in entry.people}
    rules = rows.rules
    if not rules.erasures:
        return who
    return {
        ident: whose for ident, whose in who.items() if not rules.erased(whose.person, entry.moment)
    }


def _result_row(whose: Whose, class_key: str, entry: PieceEntry) -> TableRow:
    result, terms = entry.result, entry.result.terms
    return {
        "class_key": class_key,
        "piece": entry.piece,
        "lane": entry.lane,
        "person": whose.person,
        "athlete": whose.athlete,
        "name": result.piece,
        "called": entry.called,
        "benchmark": result.benchmark,
        "written": result.written,
        "day": result.day,
        "moment": result.moment,
        "score": result.score,
        "kind": result.kind,
        "worth": result.worth,
        "total_reps": result.total_reps,
        "modification": terms.modification,
        "loads": terms.loads,
        "work": terms.work,
        "team": terms.team,
        "terms": terms.key,
        "counts": result.counts,
        "why_not": result.why_not,
        "rank": entry.rank,
        "status": entry.status,
        "note": entry.note,
        "options": _names(entry.options),
        "own_options": _names(entry.own_options),
        "splits": _numbers(result.splits),
        "round_reps": _numbers(result.round_reps),
        "start_station": entry.start_station,
    }


def _lift_row(whose: Whose, class_key: str, entry: PieceEntry, number: int, lift: Lift) -> TableRow:
    return {
        "class_key": class_key,
        "piece": entry.piece,
        "lane": entry.lane,
        "person": whose.person,
        "number": number,
        "athlete": whose.athlete,
        "lift": lift.lift,
        "reps": lift.reps,
        "load": lift.load,
        "worth": load_worth(lift.load_kg),
        "made": lift.made,
        "settled": lift.settled,
        "counts": lift.counts,
        "written": lift.written,
        "day": entry.result.day,
        "moment": entry.result.moment,
    }


def _numbers(numbers: Sequence[int | None]) -> str:
    """As JSON has a list of numbers; json.dumps takes four times as long for it."""
    return str(list(numbers)).replace("None", "null")
