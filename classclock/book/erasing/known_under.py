"""Everything that somebody was recorded under: entries and names, of whatever room and time."""

from collections.abc import Iterable, Iterator

from msgspec import Struct
from sqlalchemy import Connection, select

from classclock.book.files.changes import Change, Changes
from classclock.book.files.import_lines import Import
from classclock.book.handing_over.changed import names_in
from classclock.book.people_ids import entry_said, is_of, said_in
from classclock.book.people_rules import people_rules, standing_changes
from classclock.book.tables.applying import all_changes
from classclock.book.tables.opening import asking_room
from classclock.book.tables.queries import Athlete
from classclock.book.tables.schema import athletes, classes, lifts, results, seen
from classclock.units.names import name_key


class KnownUnder(Struct, frozen=True):
    entries: frozenset[str]
    """`ROOM/ID`."""
    names: frozenset[str]

    def ids(self, room: str) -> frozenset[str]:
        """Their ids in a room's files."""
        return frozenset(said_in(room, one) for one in self.entries if is_of(room, one))


def known_under(connection: Connection, own: Changes, athlete: Athlete) -> KnownUnder:
    """Of an athlete of the book, by the book and by its changes, undone ones too.

    `own` are the asking room's changes. An undone import may have its own id for them: it is in no
    table any more, and its name tells.
    """
    entry = entry_said(asking_room(connection), athlete.id)
    rooms = [one for one in all_changes(connection) if one.room != own.room] + [own]
    asked = select(seen.c.person, seen.c.name).where(seen.c.athlete == entry)
    found = connection.execute(asked.distinct()).all()
    merged = {gone for gone, kept in people_rules(rooms).aliases.items() if kept == entry}
    entries = {row.person for row in found} | merged | {entry}
    names = {row.name for row in found} | {athlete.name}
    others = {name_key(name) for name in _names_of_others(connection, entries)}
    for one in rooms:
        standing = {line.n for line in standing_changes(one.lines)}
        names |= {
            name
            for line, name in names_in_changes(one, entries)
            # A rename that was undone may have been meant for whoever has that name.
            if line.n in standing or name_key(name) not in others
        }
    in_book = set(connection.execute(select(seen.c.person).distinct()).scalars())
    orphans = {
        entry_said(own.room, ident)
        for ident, name in _undone_people(own)
        if name_key(name) in set(map(name_key, names))
    }
    return KnownUnder(frozenset(entries | orphans - in_book), frozenset(names))


def only_in_changes(own: Changes, name: str) -> Athlete | None:
    """Somebody whom no table knows, and whom only a room's changes name.

    An import was undone, say, or an erasure was cut off before its end.
    """
    for ident, called in (said for line in own.lines for said in names_in(line)):
        if name_key(called) == name_key(name):
            return Athlete(ident, called, "", (), 0, "", "")
    return None


def names_in_changes(read: Changes, entries: Iterable[str]) -> Iterator[tuple[Change, str]]:
    """The names that a room's changes gave somebody of these entries, and the change that did."""
    theirs = set(entries)
    for line in read.lines:
        for said, name in names_in(line):
            if name and entry_said(read.room, said) in theirs:
                yield line, name


def other_texts(connection: Connection, known: KnownUnder) -> frozenset[str]:
    """What people, pieces and options are called in which a name of theirs might stand."""
    texts: set[str] = set()
    for columns in (
        (results.c.name, results.c.benchmark, results.c.modification),
        (classes.c.title,),
        (lifts.c.lift,),
    ):
        for row in connection.execute(select(*columns).distinct()):
            texts.update(row)
    texts.update(_names_of_others(connection, known.entries))
    texts.update(connection.execute(select(athletes.c.name).distinct()).scalars())
    return frozenset(texts)


def _names_of_others(connection: Connection, entries: Iterable[str]) -> Iterator[str]:
    asked = select(seen.c.name).where(seen.c.person.not_in(set(entries))).distinct()
    yield from connection.execute(asked).scalars()


def _undone_people(own: Changes) -> Iterator[tuple[str, str]]:
    """The ids and names in imports that were taken back."""
    standing = {line.n for line in standing_changes(own.lines)}
    for line in own.lines:
        if isinstance(line, Import) and line.n not in standing:
            yield from ((one.athlete, one.name) for one in line.records)
