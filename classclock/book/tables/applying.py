"""Bringing the book up to the changes: imports, merges, names, marks, erasures."""

from collections.abc import Callable, Collection, Sequence

from msgspec import UNSET
from msgspec.json import encode
from msgspec.structs import replace
from sqlalchemy import Connection, delete, insert, not_, select, update

from classclock.book.files.changes import Change, Changes, Undo, read_change, read_change_for_rules
from classclock.book.files.import_lines import Import
from classclock.book.goals.table import keep_goals
from classclock.book.people_ids import entry_of, entry_said, said_in
from classclock.book.people_rules import PeopleRules, imports, people_named, people_rules
from classclock.book.tables.deriving import Touched, derive, derive_later
from classclock.book.tables.efforts_said import keep_efforts
from classclock.book.tables.imported_rows import all_records, import_key, import_rows
from classclock.book.tables.large_imports import (
    half_way,
    is_large,
    put_in_later,
    take_out_later,
    under,
)
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import (
    PERSONAL,
    RECORDED,
    athletes,
    changes,
    efforts_given,
    files,
    seen,
)
from classclock.book.tables.taking_in import Rows, take_out

_MANY = 25
"""The numbers of more athletes than this are worked out by batches."""


def all_changes(connection: Connection) -> tuple[Changes, ...]:
    """The changes of all rooms, as the book holds them."""
    return _changes_read(connection, read_change)


def _changes_read(connection: Connection, read: Callable[[str], Change]) -> tuple[Changes, ...]:
    found: dict[str, list[Change]] = {}
    for row in connection.execute(select(changes).order_by(changes.c.room, changes.c.n)):
        found.setdefault(row.room, []).append(read(row.line))
    return tuple(Changes(room, tuple(lines)) for room, lines in found.items())


def rules_in(connection: Connection) -> PeopleRules:
    """What the changes of all rooms come to.

    Of an import that is its marks: the years of scores beside them are not made into values.
    """
    return people_rules(_changes_read(connection, read_change_for_rules))


def athletes_now(connection: Connection, recorded: Collection[str]) -> dict[str, str]:
    """By the id under which the asking room recorded somebody, the athlete they are now."""
    room, rules = asking_room(connection), rules_in(connection)
    return {ident: said_in(room, rules.athlete(entry_of(room, ident))) for ident in recorded}


def apply_changes(connection: Connection, read: Changes) -> bool:
    """Make the book's copy of this room's changes equal to the file's, with all that follows.

    Whether somebody was forgotten by it: what was deleted of them is in free pages still.
    """
    old = _lines_in(connection, read.room)
    new = {line.n: encode(line).decode() for line in read.lines}
    if old == new:
        return False
    before, stood = rules_in(connection), imports([read_change(line) for line in old.values()])
    keep_changes(connection, read)
    keep_efforts(connection, read)
    rooms = _changes_read(connection, read_change_for_rules)
    rules = people_rules(rooms)
    keep_goals(connection, rooms, rules)
    touched = Touched(_touched_by(read.room, old, new), in_all=True)
    touched.update(_apply_merges(connection, before, rules))
    touched.update(_apply_imports(connection, rules, read, stood))
    forgotten = _forget(connection, before, rules)
    touched.update(forgotten)
    if len(touched.athletes) > _MANY:
        derive_later(connection, touched)
    else:
        derive(connection, rules, touched)
    return bool(forgotten.athletes)


def forget_changes(connection: Connection, room: str) -> None:
    """Take this room's changes out of the book, to be put in anew; and what it has of nothing.

    The numbers of all its people are to be worked out anew then.
    """
    apply_changes(connection, Changes(room))
    taken_in = select(files.c.class_key).where(files.c.room == room)
    touched = Touched()
    later = [import_key(room, number) for number in half_way(connection, room)]
    for table in RECORDED:
        ours = table.c.class_key.startswith(f"{room}/", autoescape=True)
        asked = select(table.c.class_key).where(ours, table.c.class_key.not_in(taken_in))
        for key in later:
            asked = asked.where(not_(under(table, key)))
        touched.update(take_out(connection, list(connection.execute(asked.distinct()).scalars())))
    named = athletes.c.athlete.startswith(f"{room}/", autoescape=True)
    touched.athletes.update(connection.execute(select(athletes.c.athlete).where(named)).scalars())
    derive_later(connection, touched)


def keep_changes(connection: Connection, read: Changes) -> None:
    """Make the book's copy of a room's changes equal to these; nothing follows from it."""
    old = _lines_in(connection, read.room)
    new = {line.n: (line.change, encode(line).decode()) for line in read.lines}
    other = [n for n, (_, line) in new.items() if old.get(n) != line]
    gone = [n for n in old if n not in new]
    here = (changes.c.room == read.room, changes.c.n.in_([*other, *gone]))
    connection.execute(delete(changes).where(*here))
    if other:
        rows = [{"room": read.room, "n": n, "kind": new[n][0], "line": new[n][1]} for n in other]
        connection.execute(insert(changes), rows)


def _lines_in(connection: Connection, room: str) -> dict[int, str]:
    """The room's changes by number, as the book has them."""
    asked = select(changes.c.n, changes.c.line).where(changes.c.room == room)
    return {row.n: row.line for row in connection.execute(asked)}


def _touched_by(room: str, old: dict[int, str], new: dict[int, str]) -> set[str]:
    """The athletes that speak of lines which came, went or were taken back.

    Whom a large import has records of is told once they go in.
    """
    both = {**old, **new}
    numbers = {n for n in both if old.get(n) != new.get(n)}
    lines = [read_change(both[n]) for n in numbers]
    taken_back = {line.of for line in lines if isinstance(line, Undo)} & set(both)
    lines += [read_change(both[n]) for n in taken_back]
    said = people_named(map(_at_once_told, lines))
    return {entry_said(room, one) for one in said}


def _at_once_told(line: Change) -> Change:
    if isinstance(line, Import) and is_large(line):
        return replace(line, scores=(), visits=UNSET, lifts=UNSET)
    return line


def _apply_merges(connection: Connection, before: PeopleRules, rules: PeopleRules) -> Touched:
    """Give the rows of whoever became another athlete, or is none of another's any more, to them.

    They are found by the athlete that they were: there is an index of athletes, and none of whom
    classes recorded.
    """
    touched = Touched(in_all=True)
    for person in sorted(before.aliases.keys() | rules.aliases.keys()):
        was, now = before.athlete(person), rules.athlete(person)
        if was != now:
            touched.athletes |= {was, now}
            for table in PERSONAL:
                theirs = (table.c.athlete == was, table.c.person == person)
                connection.execute(update(table).where(*theirs).values(athlete=now))
    return touched


def _apply_imports(
    connection: Connection, rules: PeopleRules, read: Changes, stood: Sequence[Import]
) -> Touched:
    """Put in what was imported since, and take out what was imported and stands no more.

    `stood`: the imports that are in the book.
    """
    touched = Touched(in_all=True)
    there, wanted = set(stood), imports(read.lines)
    half = half_way(connection, read.room)
    for line in there - set(wanted):
        if is_large(line) or line.n in half:
            take_out_later(connection, read.room, line.n)
        else:
            touched.update(take_out(connection, _keys_of(connection, read.room, line)))
    half = half_way(connection, read.room)
    rows = Rows(rules, read.room)
    for line in wanted:
        if line not in there:
            if is_large(line) or line.n in half:
                put_in_later(connection, read.room, line.n)
            else:
                key = import_key(read.room, line.n)
                touched.update(import_rows(rows, key, line, all_records(line)))
    rows.flush(connection)
    return touched


def _keys_of(connection: Connection, room: str, line: Import) -> Sequence[str]:
    """The keys of an import, and of each visit that came in it."""
    key = import_key(room, line.n)
    visits = seen.c.class_key.startswith(f"{key}/", autoescape=True)
    asked = select(seen.c.class_key).where(visits).distinct()
    return [key, *connection.execute(asked).scalars()]


def _forget(connection: Connection, before: PeopleRules, rules: PeopleRules) -> Touched:
    """Delete what was recorded of whoever was erased since."""
    touched = Touched(in_all=True)
    if set(rules.erasures) <= set(before.erasures):
        return touched
    known = connection.execute(select(seen.c.person, seen.c.athlete).distinct()).all()
    for person, athlete in known:
        if before_moment := rules.forgotten_before(person):
            touched.athletes.add(athlete)
            forgotten = select(seen.c.class_key).where(
                seen.c.person == person, seen.c.moment < before_moment
            )
            connection.execute(
                delete(efforts_given).where(
                    efforts_given.c.person == person, efforts_given.c.class_key.in_(forgotten)
                )
            )
            for table in PERSONAL:
                meant = (table.c.person == person, table.c.moment < before_moment)
                connection.execute(delete(table).where(table.c.athlete == athlete, *meant))
    return touched
