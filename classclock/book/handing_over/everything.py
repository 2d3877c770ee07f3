"""All that is kept about one person as plain values, with nobody else's name in them."""

from msgspec import Struct, field
from sqlalchemy import Connection

from classclock.book.handing_over.changed import changes_about, imported_values
from classclock.book.handing_over.in_book import (
    KeptRow,
    WhoIsMeant,
    attendance_rows,
    changes_of_rooms,
    goal_rows,
    lift_rows,
    result_rows,
    who_is_meant,
)
from classclock.book.handing_over.in_folder import InFolder, found_in_folder
from classclock.book.handing_over.left_out import OnlyTheirNames
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import Athlete

_NOTES = {"Noted": "note", "EmergencyNoted": "emergency card", "Corrected": "reason"}
"""By event, what somebody wrote in it."""


class Kept(Struct, frozen=True):
    """Everything about one person. Tables have a row each, with the same keys."""

    athlete: Athlete
    person: KeptRow
    tables: dict[str, list[KeptRow]]
    """By name; those that hold something."""
    classes: list[KeptRow]
    """Their part of each class's results, as the file has it."""
    journals: list[KeptRow]
    names: OnlyTheirNames
    """For what else is handed over with it."""
    unread: tuple[str, ...] = field(default=())
    """Files that may tell of them and can't be read."""
    elsewhere: bool = False
    """Whether another room has files about them: journals, notes."""


def kept_about(book: Book, athlete: Athlete) -> Kept:
    """Look through the book and all files of its club's folder.

    Raises:
        BookError: the book can't be asked.
    """
    with book.reading() as connection:
        meant = who_is_meant(connection, athlete)
        names = OnlyTheirNames(meant.names, meant.others)
        found = found_in_folder(book.folder, meant.ids, names)
        # Who came to a class that was never saved is named in its journal alone.
        names = OnlyTheirNames(meant.names, meant.others | found.people)
        tables = _tables(connection, meant, found)
    return Kept(
        athlete,
        names.values(_person(meant)),
        {name: names.values(rows) for name, rows in tables.items() if rows},
        names.values(found.classes),
        names.values(found.journals),
        names,
        tuple(str(path) for path in found.unread),
        meant.elsewhere,
    )


def _person(meant: WhoIsMeant) -> KeptRow:
    one = meant.athlete
    return {
        "name": one.name,
        "also_recorded_as": sorted(meant.names - {one.name}),
        "ids": sorted(meant.ids),
        "key": one.key,
        "marks": list(one.marks),
        "classes": one.classes,
        "first_class": one.first_day,
        "last_class": one.last_day,
    }


def _tables(connection: Connection, meant: WhoIsMeant, found: InFolder) -> dict[str, list[KeptRow]]:
    name = {"name": meant.athlete.name}
    about = list(changes_about(changes_of_rooms(connection), meant.entries))
    notes = [
        {**name, "when": line["when"], "journal": one["journal"], "kind": kind, "text": text}
        for one in found.journals
        for line in one["lines"]
        if (kind := _NOTES.get(line["event"])) and (text := line.get("text") or line.get("reason"))
    ]
    return {
        "attendance": list(attendance_rows(connection, meant)),
        "results": list(result_rows(connection, meant)),
        "lifts": list(lift_rows(connection, meant)),
        "goals": list(goal_rows(connection, meant)),
        "notes": notes,
        "changes": [
            {**name, "when": one.line.at, "number": one.line.n, "change": one.line.change}
            | {"what": one.words, "taken_back": int(one.taken_back)}
            for one in about
        ],
        "imported": [{**name, **row} for one in about for row in imported_values(one)],
        "plans": [{**name, **row} for row in found.plans],
        "copies": [{**name, "file": str(path)} for path in found.copies],
    }
