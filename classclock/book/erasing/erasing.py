"""Erasing a person on request: from journals, results, changes, the book, and copies in reach."""

import os
from collections.abc import Mapping
from datetime import datetime

from msgspec.structs import replace
from sqlalchemy import Connection, select, update

from classclock.book.changing import utc
from classclock.book.erasing.changes_kept import changes_without
from classclock.book.erasing.known_under import known_under, other_texts
from classclock.book.erasing.orders import order_statuses, other_rooms
from classclock.book.erasing.reach import (
    ChangedMeanwhileError,
    Reach,
    Wanted,
    reach_of,
    search,
    written_without,
)
from classclock.book.erasing.scrubbing import note_without
from classclock.book.files.changes import Changes, Erasure
from classclock.book.files.whole_changes_file import read_changes, write_changes
from classclock.book.people_rules import digest
from classclock.book.tables.applying import all_changes, keep_changes
from classclock.book.tables.book_lock import BookHeldError, book_lock
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.opening import Book, forget_deleted, on_a_server
from classclock.book.tables.queries import Athlete
from classclock.book.tables.schema import results
from classclock.book.tables.server_tables import later_schemas
from classclock.book.under_way import told
from classclock.machine.interrupting import uninterrupted
from classclock.units.names import name_key

OUT_OF_REACH = (
    "a sheet that was printed or a board that was photographed",
    "messages and files that were passed on, and copies in another place",
    "backups of this machine, or of a server that holds the book",
    "the logs of such a server",
    "nicknames: only the names that the club has had for them are looked for",
)
"""What no erasure can reach; said each time."""

_TRIES = 3
"""So often it is begun, where something is changed while it is read."""


def look(
    book: Book, athlete: Athlete, now: datetime, answers: Mapping[int, bool] | None = None
) -> Reach:
    """What erasing somebody would reach. Nothing is changed.

    `answers` say of mentions, by their numbers from 1, whether the name goes.

    Raises:
        ClassRunningError: a class in which they are runs now.
        BookError, ChangesDamagedError, OSError: the records can't be read.
    """
    with book.reading() as connection:
        wanted = _search(book, connection, athlete, now)
        others, later = other_rooms(connection, book.room), later_schemas(connection)
    reach, _ = reach_of(wanted, answers or {})
    reach.ordered, reach.later_books = others, later
    return reach


def erase(
    book: Book, athlete: Athlete, now: datetime, answers: Mapping[int, bool] | None = None
) -> Reach:
    """Erase somebody. It can't be taken back; begun again after a power cut, it goes on.

    Raises: as `look` does; and OSError where something can't be written.
    """
    tries = _TRIES
    while True:
        try:
            return _erase(book, athlete, now, answers or {})
        except ChangedMeanwhileError:
            tries -= 1
            if not tries:
                why = "its files are being changed just now: wait a minute, then do this again"
                raise BookHeldError(book.folder, why) from None


def _erase(book: Book, athlete: Athlete, now: datetime, answers: Mapping[int, bool]) -> Reach:
    """Raises ChangedMeanwhileError, and as `erase` does."""
    with book.reading() as connection:
        wanted = _search(book, connection, athlete, now)
    reach, scrub = reach_of(wanted, answers)
    with written_without(wanted, reach, scrub) as put_in_place, uninterrupted(for_good=True):
        with book_lock(book.folder):
            if read_changes(book.folder) != wanted.changes:
                raise ChangedMeanwhileError
            put_in_place()
            _forget_in_changes(wanted, scrub.stays, now)
        words = "Taking them out of the book: it can't be stopped any more"
        told(words, 0, 1)
        _forget_in_book(book, wanted, reach)
        told(words, 1, 1)
    return reach


def _forget_in_book(book: Book, wanted: Wanted, reach: Reach) -> None:
    catch_up(book, 0, thorough=True)
    if on_a_server():
        _forget_in_other_rooms(book, wanted)
        with book.reading() as connection:
            own = [one for one in order_statuses(connection) if one.room == book.room]
            newest = max(own, key=lambda one: one.n)
            reach.later_books = later_schemas(connection)
            reach.ordered = sum(not one.at for one in newest.rooms)
    reach.server_keeps = not forget_deleted(book)


def _search(book: Book, connection: Connection, athlete: Athlete, now: datetime) -> Wanted:
    changes = read_changes(book.folder)
    known = known_under(connection, changes, athlete)
    others = other_texts(connection, known)
    return search(book.folder, changes, known, others, _before(now))


def _before(now: datetime) -> int:
    return int(now.timestamp() * 1000) + 1


def _forget_in_changes(wanted: Wanted, stays: frozenset[str], now: datetime) -> None:
    changes = read_changes(wanted.folder)
    kept = changes_without(changes, wanted.known, wanted.named, stays)
    salt = os.urandom(16).hex()
    erasure = Erasure(
        salt=salt,
        digests=tuple(sorted(digest(salt, entry) for entry in wanted.known.entries)),
        before=wanted.before,
        names=_name_digests(salt, wanted) if on_a_server() else (),
    )
    # The number after the last of all, so that none is given twice.
    numbered = replace(erasure, n=changes.next_number, at=utc(now))
    write_changes(wanted.folder, Changes(changes.room, (*kept.lines, numbered)))


def _name_digests(salt: str, wanted: Wanted) -> tuple[str, ...]:
    return tuple(sorted({digest(salt, name_key(name)) for name in wanted.named.names}))


def _forget_in_other_rooms(book: Book, wanted: Wanted) -> None:
    """Take them out of what the book holds of other rooms, whose files have it still."""
    with book.writing() as connection:
        elsewhere = ~results.c.class_key.startswith(f"{book.room}/", autoescape=True)
        noted = select(results.c.note).where(elsewhere, results.c.note != "").distinct()
        for note in connection.execute(noted).scalars().all():
            if (without := note_without(note, wanted.named)) != note:
                same = (elsewhere, results.c.note == note)
                connection.execute(update(results).where(*same).values(note=without))
        for read in all_changes(connection):
            kept = changes_without(read, wanted.known, wanted.named)
            if read.room != book.room and kept != read:
                keep_changes(connection, kept)
