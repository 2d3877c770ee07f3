"""Bringing the book up to the changes: imports, merges, names, marks, erasures."""

from collections.abc import Collection, Sequence

from msgspec.json import encode
from sqlalchemy import Connection, delete, insert, select, update

from classclock.book.files.changes import Change, Changes, Import, Merge, Undo, read_change
from classclock.book.people_ids import entry_of, entry_said, said_in
from classclock.book.people_rules import PeopleRules, imports, people_rules
from classclock.book.tables.deriving import Touched, derive
from classclock.book.tables.efforts_said import keep_efforts
from classclock.book.tables.imported_rows import import_of, import_rows
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import PERSONAL, changes, efforts_given, seen
from classclock.book.tables.taking_in import Rows, take_out


def all_changes(connection: Connection) -> tuple[Changes, ...]:
    """The changes of all rooms, as the book holds them."""
    found: dict[str, list[Change]] = {}
    for row in connection.execute(select(changes).order_by(changes.c.room, changes.c.n)):
        found.setdefault(row.room, []).append(read_change(row.line))
    return tuple(Changes(room, tuple(lines)) for room, lines in found.items())


def rules_in(connection: Connection) -> PeopleRules:
    """What the changes of all rooms come to."""
    return people_rules(all_changes(connection))


def athletes_now(connection: Connection, recorded: Collection[str]) -> dict[str, str]:
    """By the id under which the asking room recorded somebody, the athlete they are now."""
    room, rules = asking_room(connection), rules_in(connection)
    return {ident: said_in(room, rules.athlete(entry_of(room, ident))) for ident in recorded}


def apply_changes(connection: Connection, read: Changes) -> None:
    """Make the book's copy of this room's changes equal to the file's, with all that follows."""
    here = changes.c.room == read.room
    old = {row.n: row.line for row in connection.execute(select(changes).where(here))}
    new = {line.n: encode(line).decode() for line in read.lines}
    if old == new:
        return
    keep_changes(connection, read)
    keep_efforts(connection, read)
    rules = rules_in(connection)
    touched = Touched(_named_in(read.room, old, new), in_all=True)
    touched.update(_apply_merges(connection, rules))
    touched.update(_apply_imports(connection, rules, read))
    touched.update(_forget(connection, rules))
    derive(connection, rules, touched)


def keep_changes(connection: Connection, read: Changes) -> None:
    """Make the book's copy of a room's changes equal to these; nothing follows from it."""
    connection.execute(delete(changes).where(changes.c.room == read.room))
    rows = [
        {"room": read.room, "n": line.n, "kind": line.change, "line": encode(line).decode()}
        for line in read.lines
    ]
    if rows:
        connection.execute(insert(changes), rows)


def _named_in(room: str, old: dict[int, str], new: dict[int, str]) -> set[str]:
    """The athletes that speak of lines which came, went or were taken back."""
    both = {**old, **new}
    numbers = {n for n in both if old.get(n) != new.get(n)}
    lines = [read_change(both[n]) for n in numbers]
    taken_back = {line.of for line in lines if isinstance(line, Undo)} & set(both)
    said = _said([*lines, *(read_change(both[n]) for n in taken_back)])
    return {entry_said(room, one) for one in said}


def _said(lines: Sequence[Change]) -> set[str]:
    ids: set[str] = set()
    for line in lines:
        if isinstance(line, Import):
            ids |= {record.athlete for record in line.records}
        elif isinstance(line, Merge):
            ids |= {line.gone, line.kept}
        elif athlete := getattr(line, "athlete", None):
            ids.add(athlete)
    return ids


def _apply_merges(connection: Connection, rules: PeopleRules) -> Touched:
    touched = Touched(in_all=True)
    for person, athlete in connection.execute(select(seen.c.person, seen.c.athlete).distinct()):
        now = rules.athlete(person)
        if now != athlete:
            touched.athletes |= {athlete, now}
            for table in PERSONAL:
                connection.execute(
                    update(table).where(table.c.person == person).values(athlete=now)
                )
    return touched


def _apply_imports(connection: Connection, rules: PeopleRules, read: Changes) -> Touched:
    prefix = f"{read.room}/import-"
    wanted = {f"{prefix}{line.n}": line for line in imports(read.lines)}
    stands = select(seen.c.class_key).where(seen.c.class_key.startswith(prefix, autoescape=True))
    present = {row.class_key for row in connection.execute(stands.distinct())}
    touched = Touched(in_all=True)
    if gone := {key for key in present if import_of(key) not in wanted}:
        touched.update(take_out(connection, sorted(gone)))
    rows = Rows(rules, read.room)
    there = set(map(import_of, present))
    for key, line in wanted.items():
        if key not in there:
            touched.update(import_rows(rows, key, line))
    rows.flush(connection)
    return touched


def _forget(connection: Connection, rules: PeopleRules) -> Touched:
    """Delete what was recorded of whoever was erased since."""
    touched = Touched(in_all=True)
    if not rules.erasures:
        return touched
    known = connection.execute(select(seen.c.person, seen.c.athlete).distinct()).all()
    for person, athlete in known:
        if before := rules.forgotten_before(person):
            touched.athletes.add(athlete)
            forgotten = select(seen.c.class_key).where(
                seen.c.person == person, seen.c.moment < before
            )
            connection.execute(
                delete(efforts_given).where(
                    efforts_given.c.person == person, efforts_given.c.class_key.in_(forgotten)
                )
            )
            for table in PERSONAL:
                meant = (table.c.person == person, table.c.moment < before)
                connection.execute(delete(table).where(*meant))
    return touched
