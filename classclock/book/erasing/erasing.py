"""Erasing a person on request: from journals, results, changes, the book, and copies in reach."""

import os
from collections.abc import Mapping
from datetime import datetime

from msgspec.structs import replace
from sqlalchemy import Connection

from classclock.book.changing import utc
from classclock.book.erasing.changes_without import changes_without
from classclock.book.erasing.known_under import known_under, other_texts
from classclock.book.erasing.mentions import staying
from classclock.book.erasing.reach import Reach, Search, reach_of, search, take_out
from classclock.book.files.changes import Changes, Erasure, read_changes, write_changes
from classclock.book.people_rules import digest
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.opening import Book, forget_deleted
from classclock.book.tables.queries import Athlete

OUT_OF_REACH = (
    "a sheet that was printed or a board that was photographed",
    "messages and files that were passed on, and copies in another place",
    "backups of this machine, or of a server that holds the book",
    "the log of such a server",
    "nicknames: only the names that the club has had for them are looked for",
)
"""What no erasure can reach; said each time."""


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
    return reach_of(wanted, answers or {})[0]


def erase(
    book: Book, athlete: Athlete, now: datetime, answers: Mapping[int, bool] | None = None
) -> Reach:
    """Erase somebody. It can't be taken back; begun again after a power cut, it goes on.

    Raises: as `look` does; and OSError where something can't be written.
    """
    with book.reading() as connection:
        wanted = _search(book, connection, athlete, now)
    with book_lock(book.folder):
        reach, scrub = reach_of(wanted, answers or {})
        take_out(wanted, reach, scrub)
        _forget_in_changes(wanted, staying(reach.mentions, "file name"), now)
    catch_up(book, 0, thorough=True)
    forget_deleted(book)
    return reach


def _search(book: Book, connection: Connection, athlete: Athlete, now: datetime) -> Search:
    changes = read_changes(book.folder)
    known = known_under(connection, changes, athlete)
    others = other_texts(connection, known)
    return search(book.folder, changes, known, others, _before(now))


def _before(now: datetime) -> int:
    return int(now.timestamp() * 1000) + 1


def _forget_in_changes(wanted: Search, stays: frozenset[str], now: datetime) -> None:
    changes = read_changes(wanted.folder)
    kept = changes_without(changes, wanted.known, wanted.named, stays)
    salt = os.urandom(16).hex()
    erasure = Erasure(
        salt=salt,
        digests=tuple(sorted(digest(salt, entry) for entry in wanted.known.entries)),
        before=wanted.before,
    )
    # The number after the last of all, so that none is given twice.
    numbered = replace(erasure, n=changes.next_number, at=utc(now))
    write_changes(wanted.folder, Changes(changes.room, (*kept.lines, numbered)))
