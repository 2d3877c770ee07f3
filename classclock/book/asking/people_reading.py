"""Who the people of a class are: those whom the club knows already come back with id and key.

The one place where somebody is found by a name: among the people of this club alone.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.book.files.any_records import MOST_CLASSES, has_records
from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.people_ids import drawn_id, new_id
from classclock.clock.source import local_now
from classclock.club import folder as club_folder
from classclock.tally.lane_keys import assign_keys
from classclock.tally.lanes import Mark, Person
from classclock.tally.visitors import numbered, visitor
from classclock.units.names import is_unnamed, name_key

if TYPE_CHECKING:
    from classclock.book.asking.known_people import KnownPerson


def remembered(folder: Path) -> "tuple[KnownPerson, ...]":
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


def known_for(folder: Path, names: Sequence[str]) -> "tuple[KnownPerson, ...]":
    """Everybody whom the club may mean by these names, the sooner the better.

    The book is asked only where the newest results files aren't all there are, and lack a name.
    """
    known = in_files(folder)
    called = {name_key(one.name) for one in known}
    if all(name_key(name) in called for name in names):
        return known
    results = club_folder.results(folder)
    return known if len(list(results.glob("*.json"))) <= MOST_CLASSES else remembered(folder)


def in_files(folder: Path) -> "tuple[KnownPerson, ...]":
    """Everybody in the newest results files and in imports, named and merged as the changes say.

    Loads no database: quick enough before the first paint.
    """
    if not has_records(folder):
        return ()
    from classclock.book.asking.people_in_files import people_in_files  # noqa: PLC0415  a new club has none

    return people_in_files(folder)


def known_as(name: str, known: "Sequence[KnownPerson]") -> "KnownPerson | None":
    """Who has this name, however it is spelled; None where nobody has, or several do.

    Who is recorded under two spellings is found by the one that is typed.
    """
    named = [one for one in known if name_key(one.name) == name_key(name)]
    if len(named) > 1:
        named = [one for one in named if one.name.casefold() == name.strip().casefold()]
    return named[0] if len(named) == 1 else None


def person_called(
    name: str,
    known: "Sequence[KnownPerson]",
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
    names: Sequence[str], known: "Sequence[KnownPerson]", draw: Callable[[], str] = drawn_id
) -> tuple[Person, ...]:
    """The people of these names, each with a key of their own."""
    people: list[Person] = []
    for name in names:
        one = person_called(name, known, {person.id for person in people}, draw)
        people.append(numbered(one, people))
    assigned, _ = assign_keys(people, {one.id: one.classes for one in known})
    return assigned


def remember_same(folder: Path, gone: str, kept: "KnownPerson") -> bool:
    """Write down that an id of this club is somebody whom it knows; whether it worked."""
    from classclock.book.changing import write_down  # noqa: PLC0415  seldom
    from classclock.book.files.changes import Merge  # noqa: PLC0415  the same

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
    from classclock.book.files.changes import MarkSet  # noqa: PLC0415  the same

    lines = [MarkSet(athlete=ident, mark=mark, on=on) for (ident, mark), on in marked.items()]
    try:
        write_down(folder, lines, local_now())
    except (ChangesDamagedError, OSError):
        return False  # they hold in this class, and are asked for again before the next
    return True
