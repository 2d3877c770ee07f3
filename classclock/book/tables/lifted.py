"""What the book is asked about loads: the heaviest made, and what stands on record. Values out."""

import re
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from msgspec import Struct
from sqlalchemy import Column, ColumnElement, Connection, Row, and_, func, or_, select

from classclock.book.files.import_lines import Import
from classclock.book.people_ids import entry_said, said_in
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import changes, lifts, results, seen, set_bests
from classclock.plan.amounts import rep_words
from classclock.records.result import Result, Terms

_AS_MADE = tuple(
    lifts.c[name] for name in ("moment", "class_key", "piece", "lane", "person", "number")
)
"""The order in which they were made."""
_SET = (
    *("athlete", "benchmark", "name", "written", "load", "worth", "day", "moment"),
    *("reps", "modification", "loads", "team"),
)
_REPS = re.compile(r"(\d{1,3}) reps?")


class LiftBest(Struct, frozen=True):
    """The heaviest load that an athlete made for so many reps."""

    lift: str
    reps: int | None
    load: str
    day: str
    provisional: bool = False
    """Whether nobody has settled it: it counts nowhere yet."""
    written: str = ""
    """The lift as the plan of that class wrote it; empty where that isn't known."""


class OnRecord(Struct, frozen=True):
    """The heaviest load that somebody made alone and as written, for so many reps of a lift."""

    lift: str
    """As it is compared."""
    written: str
    """As the plan of that class wrote it, or an old sheet."""
    reps: int | None
    """None where nobody said."""
    load: str
    """As it was entered."""
    worth: int
    day: str


def lift_bests(connection: Connection, athlete: str) -> tuple[LiftBest, ...]:
    """The heaviest made in each lift for each number of reps; of equals the earliest.

    What nobody settled stands beside it, where it would be more.
    """
    theirs = (lifts.c.athlete == entry_said(asking_room(connection), athlete), lifts.c.made)
    found = _heaviest(connection, theirs, lifts.c.settled)
    settled = {(row.lift, row.reps): row.worth for row in found if row.settled}
    every = [
        LiftBest(
            row.lift,
            row.reps,
            row.load,
            row.day,
            provisional=not row.settled,
            written=row.written,
        )
        for row in found
        if row.settled or row.worth > settled.get((row.lift, row.reps), 0)
    ]
    return tuple(sorted(every, key=lambda one: (one.lift, one.reps or 0, one.provisional)))


def on_record(
    connection: Connection, of: Collection[str], *, before: int | None = None
) -> Mapping[str, tuple[OnRecord, ...]]:
    """What athletes have on record, by their id: what counts for loads to come.

    In each lift for each number of reps the heaviest, of equals the earliest, in the order in which
    they were made; before them all loads of old sheets. `before`: of classes only that were opened
    before that moment, in milliseconds since 1970.
    """
    room = asking_room(connection)
    entries = [entry_said(room, one) for one in of]
    found: dict[str, list[OnRecord]] = {}
    for athlete, record in (
        *_imported(connection, entries),
        *_in_classes(connection, entries, before),
    ):
        found.setdefault(said_in(room, athlete), []).append(record)
    return {athlete: tuple(records) for athlete, records in found.items()}


def heaviest_sets(
    connection: Connection, of: Collection[str] | None = None
) -> dict[tuple[str, str], tuple[Result, ...]]:
    """By athlete's id and benchmark the heaviest of each number of reps; of some, or everybody."""
    room = asking_room(connection)
    asked = select(*(set_bests.c[name] for name in _SET))
    if of is not None:
        asked = asked.where(set_bests.c.athlete.in_([entry_said(room, one) for one in of]))
    found: defaultdict[tuple[str, str], list[Result]] = defaultdict(list)
    for athlete, benchmark, name, written, load, worth, day, moment, *rest in connection.execute(
        asked
    ):
        reps, modification, loads, team = rest
        who, terms = said_in(room, athlete), Terms(modification, loads, rep_words(reps), team)
        made = Result(
            *(who, name, benchmark, day, moment, load, "load", worth, None, terms), written=written
        )
        found[who, benchmark].append(made)
    return {key: tuple(sets) for key, sets in found.items()}


def known_before(connection: Connection, moment: int) -> frozenset[str]:
    """The ids of those who had been in a class before that moment, or are in an old sheet."""
    room = asking_room(connection)
    asked = select(seen.c.athlete).where(or_(seen.c.moment < moment, ~seen.c.came)).distinct()
    return frozenset(said_in(room, one) for one in connection.execute(asked).scalars())


def _in_classes(
    connection: Connection, of: Collection[str], before: int | None
) -> Iterator[tuple[str, OnRecord]]:
    which = [lifts.c.athlete.in_(of), lifts.c.counts]
    if before is not None:  # each piece of a class is a millisecond later than the one before it
        which.append(lifts.c.moment - lifts.c.piece < before)
    for row in _heaviest(connection, which):
        made = OnRecord(row.lift, row.written, row.reps, row.load, row.worth, row.day)
        yield row.athlete, made


def _heaviest(
    connection: Connection, which: Sequence[ColumnElement[bool]], *apart: Column[Any]
) -> list[Row[Any]]:
    """Of these lifts the heaviest of each athlete, lift and number of reps, the earliest first.

    Of equals the earliest. `apart`: by what else they are told apart.
    """
    group = (lifts.c.athlete, lifts.c.lift, lifts.c.reps, *apart)
    most = select(*group, func.max(lifts.c.worth).label("worth")).where(*which).group_by(*group)
    heaviest = most.subquery()
    same = (_same(one, heaviest.c[one.name]) for one in group)
    asked = select(lifts).join(heaviest, and_(*same, lifts.c.worth == heaviest.c.worth))
    found: dict[tuple[Any, ...], Row[Any]] = {}
    for row in connection.execute(asked.where(*which).order_by(*_AS_MADE)):
        found.setdefault(tuple(getattr(row, one.name) for one in group), row)
    return list(found.values())


def _same(one: Column[Any], other: ColumnElement[Any]) -> ColumnElement[bool]:
    """An index is no help with what may be null on both sides, so only where it may."""
    return one.is_not_distinct_from(other) if one.nullable else one == other


def _imported(connection: Connection, of: Collection[str]) -> Iterator[tuple[str, OnRecord]]:
    """Those of old sheets, and of other clubs' books: scores in a lift."""
    kind = changes.c.kind == Import.__struct_config__.tag
    made = connection.execute(select(changes.c.room, changes.c.n).where(kind)).all()
    if not made:
        return
    asked = (
        select(results)
        .where(results.c.class_key.in_([f"{room}/import-{n}" for room, n in made]))
        .where(results.c.athlete.in_(of), results.c.kind == "load", results.c.counts)
        .where(results.c.modification == "", results.c.team == 1)
        .order_by(results.c.class_key, results.c.piece)
    )
    for row in connection.execute(asked):
        reps = _REPS.fullmatch(row.work)
        number = int(reps[1]) if reps else None
        lift = row.benchmark
        yield row.athlete, OnRecord(lift, lift, number, row.score, row.worth, row.day)
