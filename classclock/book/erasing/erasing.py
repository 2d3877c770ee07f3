"""Erasing a person on request: from journals, results, changes, the book, and copies in reach."""

import os
from datetime import datetime
from pathlib import Path

from msgspec import Struct, field
from msgspec.structs import replace
from sqlalchemy import Connection, select

from classclock.book.changing import utc
from classclock.book.erasing.own_records import (
    found_in,
    own_records,
    plain_text,
    tables_beside,
    write_without,
)
from classclock.book.erasing.scrubbing import Scrub
from classclock.book.files.changes import (
    Change,
    Changes,
    Erasure,
    Import,
    read_changes,
    write_changes,
)
from classclock.book.files.copies import copies, forget_missing
from classclock.book.files.held_file import in_use
from classclock.book.files.saved_results import ResultsError
from classclock.book.people_ids import entry_said, is_of, said_in
from classclock.book.people_rules import digest
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.opening import Book, asking_room, forget_deleted, kept_versions
from classclock.book.tables.queries import Athlete
from classclock.book.tables.schema import seen
from classclock.machine.replacing import take_away
from classclock.records.erased import ERASED


class ClassRunningError(Exception):
    """A class is running, whose journal can't be rewritten; `str` says so."""


class Reach(Struct):
    """What an erasure comes to, each a line for the coach."""

    files: list[Path] = field(default_factory=list)
    """Records that speak of the person."""
    removed: list[Path] = field(default_factory=list)
    """Copies and older books, removed whole."""
    changed: list[Path] = field(default_factory=list)
    """Copies that somebody has changed since: they are left alone."""
    damaged: list[Path] = field(default_factory=list)
    """Records that may speak of the person and can't be read: they are left alone."""
    later: list[Path] = field(default_factory=list)
    """Those of a later classclock: they are left alone too."""
    beside: list[Path] = field(default_factory=list)
    """The tables that belong to either, and name the person."""

    @property
    def whole(self) -> bool:
        """Whether all records that may speak of the person can be written without them."""
        return not self.damaged and not self.later


OUT_OF_REACH = (
    "a sheet that was printed or a board that was photographed",
    "messages and files that were passed on, and copies in another place",
    "backups of this machine, or of a server that holds the book",
    "plans, and nicknames in notes: only the names in the book are looked for",
)
"""What no erasure can reach; said each time."""


def look(book: Book, athlete: Athlete) -> Reach:
    """What erasing somebody would reach. Nothing is changed.

    Raises:
        ClassRunningError: a class in which they are runs now.
        BookError, OSError: the records can't be read.
    """
    with book.reading() as connection:
        scrub = _scrub(book.room, *_entries(connection, athlete))
    reach = Reach()
    into = {"readable": reach.files, "damaged": reach.damaged, "later": reach.later}
    for path in own_records(book.folder):
        found = found_in(path, scrub)
        if found == "readable" and in_use(path):
            raise ClassRunningError(
                f"{path.name} is the journal of a class that runs now: erase when it is over"
            )
        if found != "nowhere":
            into[found].append(path)
    reach.beside += tables_beside((*reach.damaged, *reach.later), scrub)
    for copy in copies(book.folder):
        if scrub.named_in(plain_text(copy.path)):
            (reach.removed if copy.unchanged else reach.changed).append(copy.path)
    reach.removed += kept_versions(book.folder)
    return reach


def erase(book: Book, athlete: Athlete, now: datetime) -> Reach:
    """Erase somebody. It can't be taken back; begun again after a power cut, it goes on.

    Raises:
        ClassRunningError: a class in which they are runs now.
        BookError, ChangesDamagedError, OSError: the records can't be read or written.
    """
    reach = look(book, athlete)
    with book.reading() as connection:
        entries, names = _entries(connection, athlete)
    scrub = _scrub(book.room, entries, names)
    with book_lock(book.folder):
        for path in tuple(reach.files):
            try:
                write_without(path, scrub)
            except ResultsError:  # somebody spoiled it since it was looked at
                reach.files.remove(path)
                reach.damaged.append(path)
        for path in reach.removed:
            take_away(path)
        forget_missing(book.folder)
        _forget_in_changes(book.folder, entries, now)
    catch_up(book, 0, thorough=True)
    forget_deleted(book)
    return reach


def _entries(connection: Connection, athlete: Athlete) -> tuple[frozenset[str], frozenset[str]]:
    """All entries and names under which somebody was recorded, in whatever room."""
    entry = entry_said(asking_room(connection), athlete.id)
    asked = select(seen.c.person, seen.c.name).where(seen.c.athlete == entry)
    found = connection.execute(asked.distinct()).all()
    entries = frozenset(row.person for row in found) | {entry}
    return entries, frozenset(row.name for row in found) | {athlete.name}


def _scrub(room: str, entries: frozenset[str], names: frozenset[str]) -> Scrub:
    own = frozenset(said_in(room, one) for one in entries if is_of(room, one))
    return Scrub(own, names, f"{ERASED}{os.urandom(6).hex()}")


def _forget_in_changes(folder: Path, entries: frozenset[str], now: datetime) -> None:
    changes = read_changes(folder)
    kept = (_without(line, changes.room, entries) for line in changes.lines)
    salt = os.urandom(16).hex()
    erasure = Erasure(
        salt=salt,
        digests=tuple(sorted(digest(salt, entry) for entry in entries)),
        before=int(now.timestamp() * 1000) + 1,
    )
    # The number after the last of all, so that none is given twice.
    numbered = replace(erasure, n=changes.next_number, at=utc(now))
    left = (line for line in kept if line is not None)
    write_changes(folder, Changes(changes.room, (*left, numbered)))


def _without(line: Change, room: str, entries: frozenset[str]) -> Change | None:
    if isinstance(line, Import):
        scores = tuple(
            score for score in line.scores if entry_said(room, score.athlete) not in entries
        )
        return replace(line, scores=scores) if scores else None
    named = (getattr(line, key, None) for key in ("athlete", "gone", "kept"))
    return None if any(entry_said(room, said) in entries for said in named if said) else line
