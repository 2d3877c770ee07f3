"""Who the people of a class are: those whom the club knows already come back with id and key.

The one place where somebody is found by a name: among the people of this club alone.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from pathlib import Path

from classclock.book.asking.known_people import MOST_CLASSES, KnownPerson, known_people
from classclock.book.files.changes import (
    ChangesDamagedError,
    MarkSet,
    Merge,
    changes_if_any,
)
from classclock.book.people_ids import drawn_id, entry_of, entry_said, new_id
from classclock.book.people_rules import imports, people_rules
from classclock.clock.source import local_now
from classclock.club import folder as club_folder
from classclock.tally.lane_keys import assign_keys
from classclock.tally.lanes import Mark, Person
from classclock.tally.visitors import numbered, visitor
from classclock.units.names import is_unnamed, name_key


def remembered(folder: Path) -> tuple[KnownPerson, ...]:
    """Everybody the club knows, who came last first: from its book, or without it from files.

    Takes a moment: for a thread of its own.
    """
    from classclock.book.asking.remembered import remembered_people  # noqa: PLC0415
    from classclock.book.tables.book_error import BookError  # noqa: PLC0415
    from classclock.book.tables.keeping import kept_book, now_ns  # noqa: PLC0415  sqlalchemy: 180 ms

    try:
        with kept_book(folder, now_ns()) as (book, _), book.reading() as asked:
            return remembered_people(asked)
    except (BookError, ChangesDamagedError, OSError):
        return in_files(folder)


def known_for(folder: Path, names: Sequence[str]) -> tuple[KnownPerson, ...]:
    """Everybody whom the club may mean by these names, the sooner the better.

    The book is asked only where the newest results files aren't all there are, and lack a name.
    """
    known = in_files(folder)
    called = {name_key(one.name) for one in known}
    if all(name_key(name) in called for name in names):
        return known
    results = club_folder.results(folder)
    return known if len(list(results.glob("*.json"))) <= MOST_CLASSES else remembered(folder)


def in_files(folder: Path) -> tuple[KnownPerson, ...]:
    """Everybody in the newest results files and in imports, named and merged as the changes say.

    Loads no database: quick enough before the first paint.
    """
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


def known_as(name: str, known: Sequence[KnownPerson]) -> KnownPerson | None:
    """Who has this name, however it is spelled; None where nobody has, or several do.

    Who is recorded under two spellings is found by the one that is typed.
    """
    named = [one for one in known if name_key(one.name) == name_key(name)]
    if len(named) > 1:
        named = [one for one in named if one.name.casefold() == name.strip().casefold()]
    return named[0] if len(named) == 1 else None


def person_called(
    name: str,
    known: Sequence[KnownPerson],
    here: Collection[str] = (),
    draw: Callable[[], str] = drawn_id,
) -> Person:
    """Whoever of the known has this name, or somebody new. `here` are ids in use in the class.

    A new person has no key yet, and an id that is drawn; one without a name is a visitor.
    """
    if is_unnamed(name):
        return visitor(new_id({*here, *(one.id for one in known)}, draw))
    found = known_as(name, known)
    if found is not None and found.id not in here:
        marks = found.marks
        return Person(found.id, name, found.key, newcomer="newcomer" in marks, marks=marks)
    return Person(new_id({*here, *(one.id for one in known)}, draw), name, "")


def people_called(
    names: Sequence[str], known: Sequence[KnownPerson], draw: Callable[[], str] = drawn_id
) -> tuple[Person, ...]:
    """The people of these names, each with a key of their own."""
    people: list[Person] = []
    for name in names:
        one = person_called(name, known, {person.id for person in people}, draw)
        people.append(numbered(one, people))
    assigned, _ = assign_keys(people, {one.id: one.classes for one in known})
    return assigned


def remember_same(folder: Path, gone: str, kept: KnownPerson) -> bool:
    """Write down that an id of this club is somebody whom it knows; whether it worked."""
    from classclock.book.changing import write_down  # noqa: PLC0415  seldom

    try:
        write_down(folder, [Merge(gone=gone, kept=kept.id, name=kept.name)], local_now())
    except (ChangesDamagedError, OSError):
        return False  # `classclock book merge` then says that two entries have one name
    return True


def remember_marks(folder: Path, marked: Mapping[tuple[str, Mark], bool]) -> bool:
    """Write down marks that the coach set (true) or took off, by person's id; whether it worked.

    `classclock book undo` takes them back, the newest first.
    """
    from classclock.book.changing import write_down  # noqa: PLC0415  seldom

    lines = [MarkSet(athlete=ident, mark=mark, on=on) for (ident, mark), on in marked.items()]
    try:
        write_down(folder, lines, local_now())
    except (ChangesDamagedError, OSError):
        return False  # they hold in this class, and are asked for again before the next
    return True
