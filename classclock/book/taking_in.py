"""Putting a class or an import into the book's tables: what was there of it before goes first."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection, Table, delete, insert, select

from classclock.book.changes import Import, ImportedScore
from classclock.book.class_entries import ClassEntry, Lift, PieceEntry
from classclock.book.deriving import Touched
from classclock.book.people_rules import PeopleRules
from classclock.book.result import day_moment, load_worth
from classclock.book.schema import RECORDED, classes, lifts, results, seen

Row = dict[str, Any]
_json = lru_cache(maxsize=4096)(json.dumps)  # most rounds are of one size, most options none
_AT_ONCE = 5_000
"""Rows that are sent together."""
_KEYS_AT_ONCE = 500


@dataclass(slots=True)
class Rows:
    """Rows on their way into the book."""

    rules: PeopleRules
    waiting: dict[Table, list[Row]] = field(default_factory=dict)

    def add(self, table: Table, row: Row) -> None:
        self.waiting.setdefault(table, []).append(row)

    def flush(self, connection: Connection, *, at_least: int = 1) -> None:
        """Send what waits, once there are so many."""
        for table, rows in self.waiting.items():
            if len(rows) >= at_least:
                # Straight to the driver: compiling parameters row by row takes as long again.
                statement = str(insert(table).compile(dialect=connection.dialect))
                connection.exec_driver_sql(statement, rows)
                rows.clear()

    def flush_if_many(self, connection: Connection) -> None:
        self.flush(connection, at_least=_AT_ONCE)


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
        },
    )
    rules = rows.rules
    gone = set()
    if rules.erasures:
        gone = {one.id for one in entry.people if rules.erased(one.id, entry.moment)}
    for person in entry.people:
        if person.id not in gone:
            rows.add(seen, _seen_row(rules, class_key, person.id, entry) | _called(person))
            touched.add(rules.athlete(person.id))
    for piece in entry.entries:
        if piece.result.athlete not in gone:
            rows.add(results, _result_row(rules, class_key, piece))
            touched.add(rules.athlete(piece.result.athlete), piece.result.benchmark)
            for row in _lift_rows(rules, class_key, piece):
                rows.add(lifts, row)
    return touched


def _called(person: Any) -> Row:
    return {"name": person.name, "key": person.key}


def _seen_row(rules: PeopleRules, class_key: str, person: str, entry: ClassEntry) -> Row:
    return {
        "class_key": class_key,
        "person": person,
        "athlete": rules.athlete(person),
        "came": True,
        "day": entry.day,
        "moment": entry.moment,
    }


def _result_row(rules: PeopleRules, class_key: str, entry: PieceEntry) -> Row:
    result = entry.result
    return {
        "class_key": class_key,
        "piece": entry.piece,
        "lane": entry.lane,
        "person": result.athlete,
        "athlete": rules.athlete(result.athlete),
        "name": result.piece,
        "called": entry.called,
        "benchmark": result.benchmark,
        "day": result.day,
        "moment": result.moment,
        "score": result.score,
        "kind": result.kind,
        "worth": result.worth,
        "total_reps": result.total_reps,
        "modification": result.terms.modification,
        "loads": result.terms.loads,
        "work": result.terms.work,
        "team": result.terms.team,
        "counts": result.counts,
        "why_not": result.why_not,
        "rank": entry.rank,
        "status": entry.status,
        "note": entry.note,
        "options": _json(entry.options),
        "splits": _json(result.splits),
        "round_reps": _json(result.round_reps),
        "start_station": entry.start_station,
    }


def _lift_rows(rules: PeopleRules, class_key: str, entry: PieceEntry) -> Iterator[Row]:
    for number, lift in enumerate(entry.lifts):
        yield _lift_row(rules, class_key, entry, number, lift)


def _lift_row(
    rules: PeopleRules, class_key: str, entry: PieceEntry, number: int, lift: Lift
) -> Row:
    return {
        "class_key": class_key,
        "piece": entry.piece,
        "lane": entry.lane,
        "person": lift.athlete,
        "number": number,
        "athlete": rules.athlete(lift.athlete),
        "lift": lift.lift,
        "reps": lift.reps,
        "load": lift.load,
        "worth": load_worth(lift.load_kg),
        "made": lift.made,
        "day": entry.result.day,
        "moment": entry.result.moment,
    }


# -- imports ---------------------------------------------------------------------


def import_rows(rows: Rows, class_key: str, imported: Import) -> Touched:
    """The rows of one import: results, and the people it names, who came to no class by it."""
    touched = Touched()
    rules = rows.rules
    named: set[str] = set()
    for number, score in enumerate(imported.scores):
        moment = day_moment(score.day)
        if rules.erased(score.athlete, moment):
            continue
        athlete = rules.athlete(score.athlete)
        touched.add(athlete, score.benchmark)
        rows.add(results, _imported_row(athlete, class_key, number, moment, score))
        if score.athlete not in named:
            named.add(score.athlete)
            rows.add(
                seen,
                {
                    "class_key": class_key,
                    "person": score.athlete,
                    "athlete": athlete,
                    "name": score.name,
                    "key": "",
                    "came": False,
                    "day": score.day,
                    "moment": moment,
                },
            )
    return touched


def _imported_row(
    athlete: str, class_key: str, number: int, moment: int, score: ImportedScore
) -> Row:
    return {
        "class_key": class_key,
        "piece": number,
        "lane": 0,
        "person": score.athlete,
        "athlete": athlete,
        "name": score.benchmark,
        "called": score.benchmark,
        "benchmark": score.benchmark,
        "day": score.day,
        "moment": moment,
        "score": score.score,
        "kind": score.kind,
        "worth": score.worth,
        "total_reps": None,
        "modification": score.modification,
        "loads": score.loads,
        "work": score.work,
        "team": 1,
        "counts": True,
        "why_not": "",
        "rank": None,
        "status": "imported",
        "note": "",
        "options": "[]",
        "splits": "[]",
        "round_reps": "[]",
        "start_station": 0,
    }
