"""Everybody whom a club's files name, without a database."""

from pathlib import Path

from classclock.book.asking.known_people import KnownPerson, known_people
from classclock.book.files.whole_changes_file import changes_if_any
from classclock.book.people_ids import entry_of, entry_said
from classclock.book.people_rules import imports, people_rules
from classclock.club import folder as club_folder


def people_in_files(folder: Path) -> tuple[KnownPerson, ...]:
    """Everybody in the newest results files and in imports, named and merged as the changes say."""
    changes = changes_if_any(folder)
    room, rules = changes.room, people_rules([changes])
    found: dict[str, KnownPerson] = {}
    for one in known_people(club_folder.results(folder)):
        athlete = rules.athlete(entry_of(room, one.id))
        ident = rules.known_in(room, athlete)
        name = rules.names.get(athlete, one.name)
        marks = rules.marks.get(athlete, ())
        known = KnownPerson(ident, name, one.key, one.classes, one.last, one.modifications, marks)
        found.setdefault(ident, known)
    for record in (record for one in imports(changes.lines) for record in one.records):
        recorded = entry_said(room, record.athlete)
        if not rules.forgotten_before(recorded):
            athlete = rules.athlete(recorded)
            ident = rules.known_in(room, athlete)
            name = rules.names.get(athlete, record.name)
            marks = rules.marks.get(athlete, ())
            found.setdefault(ident, KnownPerson(ident, name, "", classes=0, marks=marks))
    return tuple(found.values())
