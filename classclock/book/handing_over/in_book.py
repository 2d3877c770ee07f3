"""What the book has about one person, of all rooms: classes, results, loads; and their names."""

from collections.abc import Iterator
from typing import Any

from msgspec import Struct
from sqlalchemy import Connection, Table, select

from classclock.book.files.changes import Changes, read_change
from classclock.book.handing_over.changed import names_in
from classclock.book.people_ids import entry_said, is_of, said_in
from classclock.book.tables.applying import rules_in
from classclock.book.tables.efforts_said import EFFORT, SEEN_WITH_EFFORT
from classclock.book.tables.opening import asking_room
from classclock.book.tables.queries import Athlete
from classclock.book.tables.schema import athletes, changes, classes, goals, lifts, results, seen
from classclock.records.result import kg_of
from classclock.units.loads import plain

KeptRow = dict[str, Any]


class WhoIsMeant(Struct, frozen=True):
    """Who is meant: all under which they were recorded, and what other people are called."""

    athlete: Athlete
    entries: frozenset[str]
    """As `ROOM/ID`."""
    ids: frozenset[str]
    """Those of the asking room's files."""
    names: frozenset[str]
    others: frozenset[str]

    @property
    def elsewhere(self) -> bool:
        """Whether another room's files tell of them too."""
        return len(self.entries) > len(self.ids)


def changes_of_rooms(connection: Connection) -> tuple[Changes, ...]:
    """All rooms' changes, as the book holds them."""
    found: dict[str, list[Any]] = {}
    for row in connection.execute(select(changes).order_by(changes.c.room, changes.c.n)):
        found.setdefault(row.room, []).append(read_change(row.line))
    return tuple(Changes(room, tuple(lines)) for room, lines in found.items())


def who_is_meant(connection: Connection, athlete: Athlete) -> WhoIsMeant:
    room, aliases = asking_room(connection), rules_in(connection).aliases
    entry = entry_said(room, athlete.id)
    asked = select(seen.c.person, seen.c.name, seen.c.athlete).distinct()
    recorded = [(row.person, row.name, row.athlete) for row in connection.execute(asked)]
    merged = {gone for gone, kept in aliases.items() if kept == entry}
    entries = {person for person, _, theirs in recorded if theirs == entry} | {entry} | merged
    called = [
        (entry_said(of.room, said), name)
        for of in changes_of_rooms(connection)
        for line in of.lines
        for said, name in names_in(line)
    ]
    called += [(person, name) for person, name, _ in recorded]
    called += [(row.athlete, row.name) for row in connection.execute(select(athletes))]
    names = frozenset(name for person, name in called if person in entries) | {athlete.name}
    return WhoIsMeant(
        athlete,
        frozenset(entries),
        frozenset(said_in(room, one) for one in entries if is_of(room, one)),
        names - {""},
        frozenset(name for person, name in called if person not in entries) - {""},
    )


def attendance_rows(connection: Connection, meant: WhoIsMeant) -> Iterator[KeptRow]:
    efforts = {
        (row.class_key, row.person): row.effort
        for row in connection.execute(
            select(seen.c.class_key, seen.c.person, EFFORT)
            .select_from(SEEN_WITH_EFFORT)
            .where(seen.c.person.in_(meant.entries))
        )
    }
    for row in _rows(connection, seen, meant):
        yield {
            "name": row.name,
            "date": row.day,
            "class": row.title or "",
            "came": int(row.came),
            "effort": efforts[row.class_key, row.person],
            "minutes": "" if row.here_s is None else row.here_s // 60,
        }


def result_rows(connection: Connection, meant: WhoIsMeant) -> Iterator[KeptRow]:
    for row in _rows(connection, results, meant):
        yield {
            "name": meant.athlete.name,
            "date": row.day,
            "class": row.title or "imported",
            "piece": row.name,
            "benchmark": row.benchmark,
            "score": row.score,
            "rank": row.rank,
            "status": row.status,
            "modification": row.modification,
            "load": row.loads,
            "work": row.work,
            "counts": int(row.counts),
            "why_not": row.why_not,
            "note": row.note,
        }


def lift_rows(connection: Connection, meant: WhoIsMeant) -> Iterator[KeptRow]:
    for row in _rows(connection, lifts, meant):
        yield {
            "name": meant.athlete.name,
            "date": row.day,
            "class": row.title or "",
            "lift": row.lift,
            "reps": row.reps,
            "load": row.load,
            "load_kg": plain(kg_of(row.worth).amount),
            "made": int(row.made),
            "status": "settled" if row.settled else "provisional",
        }


def goal_rows(connection: Connection, meant: WhoIsMeant) -> Iterator[KeptRow]:
    asked = select(goals).where(goals.c.person.in_(meant.entries))
    for row in connection.execute(asked.order_by(goals.c.since, goals.c.benchmark)):
        yield {
            "name": meant.athlete.name,
            "benchmark": row.written,
            "goal": row.score,
            "modification": row.modification,
            "load": row.loads,
            "work": row.work,
            "set": row.since,
            "by": row.by,
            "ended": row.until,
        }


def _rows(connection: Connection, table: Table, meant: WhoIsMeant) -> Iterator[Any]:
    """Their rows of a table, in order of time, each with the title of its class."""
    asked = (
        select(table, classes.c.title)
        .join_from(table, classes, table.c.class_key == classes.c.class_key, isouter=True)
        .where(table.c.person.in_(meant.entries))
    )
    place = (column for column in table.primary_key.columns)
    yield from connection.execute(asked.order_by(table.c.moment, *place))
