"""What the book is asked about loads: the heaviest made, and what stands on record. Values out."""

import re
from collections.abc import Collection, Iterator, Mapping

from msgspec import Struct
from sqlalchemy import Connection, and_, func, or_, select

from classclock.book.files.changes import Import
from classclock.book.people_ids import entry_said, said_in
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import changes, lifts, results, seen

_REPS = re.compile(r"(\d{1,3}) reps?")


class LiftBest(Struct, frozen=True):
    """The heaviest load that an athlete made for so many reps."""

    lift: str
    reps: int | None
    load: str
    day: str
    provisional: bool = False
    """Whether nobody has settled it: it counts nowhere yet."""


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
    made = and_(lifts.c.athlete == entry_said(asking_room(connection), athlete), lifts.c.made)
    place = func.row_number().over(
        partition_by=(lifts.c.lift, lifts.c.reps, lifts.c.settled),
        order_by=(lifts.c.worth.desc(), lifts.c.moment, lifts.c.number),
    )
    ranked = select(lifts, place.label("place")).where(made).subquery()
    found = connection.execute(select(ranked).where(ranked.c.place == 1)).all()
    settled = {(row.lift, row.reps): row.worth for row in found if row.settled}
    every = [
        LiftBest(row.lift, row.reps, row.load, row.day, provisional=not row.settled)
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


def known_before(connection: Connection, moment: int) -> frozenset[str]:
    """The ids of those who had been in a class before that moment, or are in an old sheet."""
    room = asking_room(connection)
    asked = select(seen.c.athlete).where(or_(seen.c.moment < moment, ~seen.c.came)).distinct()
    return frozenset(said_in(room, one) for one in connection.execute(asked).scalars())


def _in_classes(
    connection: Connection, of: Collection[str], before: int | None
) -> Iterator[tuple[str, OnRecord]]:
    order = [lifts.c[name] for name in ("moment", "class_key", "piece", "lane", "number")]
    place = func.row_number().over(
        partition_by=(lifts.c.athlete, lifts.c.lift, lifts.c.reps),
        order_by=(lifts.c.worth.desc(), *order),
    )
    said = [
        lifts.c[name] for name in ("athlete", "lift", "written", "reps", "load", "worth", "day")
    ]
    theirs = select(*said, *order, place.label("place"))
    theirs = theirs.where(lifts.c.athlete.in_(of), lifts.c.counts)
    if before is not None:  # each piece of a class is a millisecond later than the one before it
        theirs = theirs.where(lifts.c.moment - lifts.c.piece < before)
    ranked = theirs.subquery()
    asked = select(ranked).where(ranked.c.place == 1)
    for row in connection.execute(asked.order_by(*(ranked.c[one.name] for one in order))):
        made = OnRecord(row.lift, row.written, row.reps, row.load, row.worth, row.day)
        yield row.athlete, made


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
