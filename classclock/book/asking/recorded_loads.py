"""What athletes have on record in each lift, from the book: as `club_lifts` has it from files."""

from collections.abc import Sequence
from datetime import date, datetime

from sqlalchemy import Connection

from classclock.book.asking.lift_records import LiftRecord, LoadMade, handled, records_in
from classclock.book.tables.lifted import OnRecord, known_before, on_record
from classclock.book.tables.queries import own_people
from classclock.records.result import kg_of
from classclock.strength.class_loads import LiftHistory
from classclock.strength.maxima import Formula
from classclock.units.loads import Load, parse_load
from classclock.units.names import name_key


def recorded_loads(
    connection: Connection, athlete: str, formula: Formula = "brzycki"
) -> dict[str, LiftRecord]:
    """An athlete's record in each lift, by the lift's name in small letters."""
    return records_in(_made(athlete, on_record(connection, [athlete]).get(athlete, ())), formula)


def recorded_history(
    connection: Connection, formula: Formula = "brzycki", *, before: datetime | None = None
) -> LiftHistory:
    """What everybody whom the asking room knows has lifted, by the ids that its classes have.

    `before`: of classes only that were opened before that.
    """
    own = own_people(connection)
    moment = None
    if before is not None:
        moment = int(before.timestamp() * 1000)
        known = known_before(connection, moment)
        own = tuple((ident, one) for ident, one in own if one.id in known)
    found = on_record(connection, [one.id for _, one in own], before=moment)
    ids: dict[str, set[str]] = {}
    for ident, one in own:
        ids.setdefault(name_key(one.name), set()).add(ident)
    return LiftHistory(
        {
            ident: {
                lift: handled(record)
                for lift, record in records_in(_made(ident, found[one.id]), formula).items()
            }
            for ident, one in own
            if one.id in found
        },
        {name: next(iter(those)) for name, those in ids.items() if len(those) == 1},
    )


def _made(person: str, found: Sequence[OnRecord]) -> list[LoadMade]:
    """Where nobody said for how many reps, it was made for one at least."""
    return [
        LoadMade(person, one.written, _load(one), one.reps or 1, date.fromisoformat(one.day))
        for one in found
    ]


def _load(one: OnRecord) -> Load:
    """As it was entered; what somebody spoiled by hand is known in kilograms still."""
    try:
        return parse_load(one.load, "kg")
    except ValueError:
        return kg_of(one.worth)
