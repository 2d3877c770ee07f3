"""Some results files of a room taken into the book, or out of it where they are gone."""

from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Any, NamedTuple

from msgspec import Struct
from sqlalchemy import Connection, Row, delete, func, select

from classclock.book.files.saved_results import NotResultsError, ResultsError, read_results
from classclock.book.people_rules import PeopleRules
from classclock.book.tables.deriving import Touched
from classclock.book.tables.schema import files
from classclock.book.tables.stale_files import Seen, seen_in
from classclock.book.tables.taking_in import Rows, class_rows, leave_what_is_there
from classclock.club.folder import results as results_folder
from classclock.records.class_entries import ClassEntry, read_class


class TakenIn(Struct):
    """What came of some files."""

    classes: int
    notices: list[str]
    """Files that were left out, each with why, in words."""
    touched: Touched


class _Read(NamedTuple):
    """A file that could be read."""

    name: str
    seen: Seen
    key: str
    entry: ClassEntry


def take_in(
    connection: Connection,
    folder: Path,
    rules: PeopleRules,
    room: str,
    names: Collection[str],
    *,
    anew: bool = False,
) -> TakenIn:
    """Make the book say of the files of these names what they say now.

    `anew`: also of those that are as they were. Of two files of one class the one whose name comes
    last counts; another one may have to stand in for one that is gone.
    """
    known = {row.name: row for row in _files(connection, room, files.c.name.in_(names))}
    there = seen_in(folder, names)
    changed = {name for name, row in known.items() if anew or there.get(name) != _seen(row)}
    keys = {known[name].class_key for name in changed}
    same = {row.name for row in _files(connection, room, files.c.class_key.in_(keys))}
    stale = changed | same
    there |= seen_in(folder, same - set(names))
    if stale:
        connection.execute(delete(files).where(files.c.room == room, files.c.name.in_(stale)))
    taken = TakenIn(0, [], Touched())
    wanted = sorted(name for name in there if name in stale or name not in known)
    read = list(_read(folder, room, {name: there[name] for name in wanted}, taken.notices))
    _put_in(connection, Rows(rules, room), read, keys, taken)
    return taken


def class_key(room: str, journal: str) -> str:
    return f"{room}/{journal}"


def _put_in(
    connection: Connection, rows: Rows, read: list[_Read], stale: set[str], taken: TakenIn
) -> None:
    """`stale`: the keys of classes that are in the book as a file of before had them."""
    keys = {one.key for one in read}
    asked = (
        select(files.c.class_key, func.max(files.c.name).label("last"))
        .where(files.c.room == rows.room, files.c.class_key.in_(keys))
        .group_by(files.c.class_key)
    )
    owners = {row.class_key: row.last for row in connection.execute(asked)}
    standing: dict[str, ClassEntry] = {}
    for one in read:  # in the order of their names
        stat = one.seen._asdict()
        rows.add(files, {"room": rows.room, "name": one.name, "class_key": one.key, **stat})
        if one.name > owners.get(one.key, ""):
            standing[one.key] = one.entry
    there = stale | (standing.keys() & owners.keys())
    for key, entry in standing.items():
        new = class_rows(rows, key, entry)
        if key not in there:
            taken.touched.update(new)
    taken.touched.update(leave_what_is_there(connection, rows, sorted(there)))
    taken.classes += len(standing)
    rows.flush(connection)


def _read(folder: Path, room: str, seen: dict[str, Seen], notices: list[str]) -> Iterator[_Read]:
    for name, stat in seen.items():
        try:
            entry = read_class(read_results(results_folder(folder) / name))
        except NotResultsError as error:
            notices.append(f"{error}: it is left out of the book")
        except ResultsError as error:
            notices.append(f"{error.path}: left out of the book: {error.why}")
        else:
            yield _Read(name, stat, class_key(room, entry.journal), entry)


def _files(connection: Connection, room: str, which: Any) -> Iterator[Row[Any]]:
    yield from connection.execute(select(files).where(files.c.room == room, which))


def _seen(row: Row[Any]) -> Seen:
    return Seen(row.size, row.changed)
