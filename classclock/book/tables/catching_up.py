"""Bringing the book up to what the results files and `changes.jsonl` say.

Nothing but this writes the book, and a book made anew goes the same way. Files that changed are
known by name, size and time; the folder's own time says whether any could have, since results are
renamed into place.
"""

import contextlib
import os
from collections.abc import Iterable
from heapq import nlargest
from pathlib import Path
from typing import NamedTuple

from msgspec import Struct
from sqlalchemy import Connection, delete, func, insert, select

from classclock.book.files.changes import NAME as CHANGES
from classclock.book.files.changes import Changes, changes_digest, read_changes
from classclock.book.files.saved_results import (
    NotResultsError,
    ResultsError,
    read_results,
)
from classclock.book.tables.applying import apply_changes, rules_in
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.deriving import Touched, derive
from classclock.book.tables.opening import Book
from classclock.book.tables.schema import RECORDED, changes, efforts_given, files, rooms
from classclock.book.tables.taking_in import Rows, class_rows, take_out
from classclock.club.folder import results as results_folder
from classclock.records import document
from classclock.records.class_entries import read_class

_SETTLED = 2_000_000_000
"""A folder changed this recently may change again at the same file time. Nanoseconds."""
_RECENT = 200
"""So many files, the newest by name, are looked at each time."""
_MANY = 50
"""With more classes than this at once, everybody's numbers are worked out anew."""


class CaughtUp(Struct, frozen=True):
    classes: int = 0
    """How many were taken in."""
    notices: tuple[str, ...] = ()
    """Files that were left out, each with why, in words."""


class _Seen(NamedTuple):
    size: int
    changed: int


def catch_up(book: Book, now_ns: int, *, thorough: bool = False) -> CaughtUp:
    """Take in every class and change that the book doesn't have. `now_ns`: since 1970.

    In a large club's folder files of long ago are looked at only if some came or went, or when it
    is to be `thorough`: classclock itself changes them only to erase somebody.

    Raises:
        BookError: the book can't be reached.
        ChangesDamagedError: a line of the changes can't be read.
        OSError: the club's folder can't be read or written to.
    """
    if _nothing_new(book):
        return CaughtUp()
    if book.in_memory:
        there = (book.folder / CHANGES).exists()
        read = read_changes(book.folder) if there else Changes(book.room)
        return _caught_up(book, read, now_ns, thorough=thorough)
    with book_lock(book.folder):
        return _caught_up(book, read_changes(book.folder), now_ns, thorough=thorough)


def _caught_up(book: Book, read: Changes, now_ns: int, *, thorough: bool) -> CaughtUp:
    digest = changes_digest(book.folder)
    with book.writing() as connection:
        apply_changes(connection, read)
        folder_changed = _folder_changed(book.folder)
        caught = _files(connection, book.folder, read.room, thorough=thorough)
        settled = now_ns - folder_changed > _SETTLED
        connection.execute(delete(rooms).where(rooms.c.room == read.room))
        connection.execute(
            insert(rooms).values(
                room=read.room,
                folder_changed=folder_changed if settled else 0,
                changes_digest=digest,
                reads=document.VERSION,
                called=book.folder.resolve().name,
            )
        )
    return caught


def clear(book: Book) -> None:
    """Take this room's part out of the book, to be filled anew."""
    with book_lock(book.folder):
        room = read_changes(book.folder).room
        with book.writing() as connection:
            for table in (*RECORDED, efforts_given):
                connection.execute(
                    delete(table).where(table.c.class_key.startswith(f"{room}/", autoescape=True))
                )
            for table in (files, rooms, changes):
                connection.execute(delete(table).where(table.c.room == room))
            derive(connection, rules_in(connection))


def _nothing_new(book: Book) -> bool:
    digest = changes_digest(book.folder)
    changed = _folder_changed(book.folder)
    with book.reading() as connection:
        known = connection.execute(
            select(rooms.c.folder_changed).where(
                rooms.c.changes_digest == digest, rooms.c.reads == document.VERSION
            )
        ).all()
    return bool(digest and changed) and [tuple(row) for row in known] == [(changed,)]


def _folder_changed(folder: Path) -> int:
    try:
        return results_folder(folder).stat().st_mtime_ns
    except FileNotFoundError:
        return 0


# -- the files -------------------------------------------------------------------


def _files(connection: Connection, folder: Path, room: str, *, thorough: bool) -> CaughtUp:
    names = _listed(results_folder(folder))
    since = "" if thorough else _looked_at_since(connection, room, names)
    there = _there(results_folder(folder), (name for name in names if name >= since))
    asked = select(files).where(files.c.room == room, files.c.name >= since)
    known = {
        row.name: (_Seen(row.size, row.changed), row.class_key) for row in connection.execute(asked)
    }
    stale = {name for name, (seen, _) in known.items() if there.get(name) != seen}
    if since and any(name not in there for name in stale):
        return _files(connection, folder, room, thorough=True)
    # Another file of the same class may have to stand in for one that is gone.
    keys = {known[name][1] for name in stale}
    stale |= {name for name, (_, key) in known.items() if key in keys}
    touched = Touched()
    if stale:
        touched = take_out(connection, sorted(keys))
        connection.execute(delete(files).where(files.c.room == room, files.c.name.in_(stale)))
    owners: dict[str, str] = {}
    for name in sorted(set(known) - stale):
        owners[known[name][1]] = name
    taking = _Taking(connection, room, owners, since)
    for name in sorted(name for name in there if name in stale or name not in known):
        taking.take(name, there[name], results_folder(folder))
    taking.finish()
    touched.update(taking.touched)
    if touched.athletes:
        many = taking.classes > _MANY
        derive(connection, taking.rows.rules, None if many else touched)
    return CaughtUp(taking.classes, tuple(taking.notices))


class _Taking:
    """Files taken in one by one, sent to the book in large parts."""

    def __init__(
        self, connection: Connection, room: str, owners: dict[str, str], since: str
    ) -> None:
        """`owners`: by class key, the file whose word stands for it, of those looked at."""
        self.rows = Rows(rules_in(connection), room)
        self.touched = Touched()
        self.classes = 0
        self.notices: list[str] = []
        self._connection = connection
        self._room = room
        self._owners = owners
        self._since = since

    def take(self, name: str, stat: _Seen, folder: Path) -> None:
        """Of two files of one class the one whose name comes last counts."""
        try:
            entry = read_class(read_results(folder / name))
        except NotResultsError as error:
            self.notices.append(f"{error}: it is left out of the book")
            return
        except ResultsError as error:
            self.notices.append(f"{error.path}: left out of the book: {error.why}")
            return
        key = class_key(self._room, entry.journal)
        self.rows.add(files, {"room": self._room, "name": name, "class_key": key, **stat._asdict()})
        owner = self._owners.get(key) or self._older_owner(key)
        if owner is not None:
            if owner > name:
                return
            self.finish()
            self.touched.update(take_out(self._connection, [key]))
        self._owners[key] = name
        self.classes += 1
        self.touched.update(class_rows(self.rows, key, entry))
        self.rows.flush_if_many(self._connection)

    def finish(self) -> None:
        self.rows.flush(self._connection)

    def _older_owner(self, key: str) -> str | None:
        """The same class's file among those of long ago, which weren't looked at."""
        if not self._since:
            return None
        asked = select(files.c.name).where(files.c.room == self._room, files.c.class_key == key)
        return max(self._connection.execute(asked).scalars(), default=None)


def class_key(room: str, journal: str) -> str:
    return f"{room}/{journal}"


def _listed(folder: Path) -> list[str]:
    try:
        return [name for name in os.listdir(folder) if name.endswith(".json")]  # noqa: PTH208  iterdir is slow for 25,000
    except FileNotFoundError:
        return []


def _looked_at_since(connection: Connection, room: str, names: list[str]) -> str:
    """The name from which on files are looked at; empty for all of them."""
    if len(names) <= _RECENT:
        return ""
    since = nlargest(_RECENT, names)[-1]
    older = select(func.count()).where(files.c.room == room, files.c.name < since)
    return since if connection.execute(older).scalar_one() == len(names) - _RECENT else ""


def _there(folder: Path, names: Iterable[str]) -> dict[str, _Seen]:
    found = {}
    for name in names:
        with contextlib.suppress(FileNotFoundError):  # taken away meanwhile
            stat = os.stat(f"{folder}/{name}")  # noqa: PTH116  as above
            found[name] = _Seen(stat.st_size, stat.st_mtime_ns)
    return found
