"""Bringing the book up to what the results files and `changes.jsonl` say.

Nothing but this writes the book, and a book made anew goes the same way. Where much is new it goes
in by batches, each whole by itself: others get at the book in between, and what is ended in the
middle goes on with the next.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import islice

from msgspec import Struct
from sqlalchemy import Connection, delete, insert, select

from classclock.book.files.changes import Changes, changes_digest, read_changes
from classclock.book.files.changes_file import NAME as CHANGES
from classclock.book.tables.applying import apply_changes, forget_changes, rules_in
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.class_files import TakenIn, take_in
from classclock.book.tables.deriving import Touched, derive, derive_later, waiting
from classclock.book.tables.opening import Book
from classclock.book.tables.schema import rooms
from classclock.book.tables.stale_files import folder_changed, known_files, to_look_at
from classclock.book.under_way import steps
from classclock.machine.locking import let_others_in
from classclock.records import document

_SETTLED = 2_000_000_000
"""A folder changed this recently may change again at the same file time. Nanoseconds."""
_FEW = 50
"""So many classes go in at once, with the numbers of who was in them."""
_FILES_AT_ONCE = 200
_ATHLETES_AT_ONCE = 25
"""Of a large book: about a third of a second of work each."""


class CaughtUp(Struct, frozen=True):
    classes: int = 0
    """How many were taken in."""
    notices: tuple[str, ...] = ()
    """Files that were left out, each with why, in words."""
    forgot: bool = False
    """Whether somebody who was erased went out of it: `forget_deleted` leaves nothing of them."""


class _Work(Struct, frozen=True):
    """What there is to do, as it was when the book was first looked at."""

    room: str
    names: tuple[str, ...]
    digest: str
    """Of the changes, which are in the book already."""
    folder_changed: int
    """0 where it may change again at the same file time."""
    anew: bool
    forgot: bool


def catch_up(book: Book, now_ns: int, *, thorough: bool = False, anew: bool = False) -> CaughtUp:
    """Take in every class and change that the book doesn't have. `now_ns`: since 1970.

    `thorough`: look at files of long ago too (`stale_files.py`). `anew`: all of this room's part is
    put in again, whatever stands there.

    Raises:
        BookError: the book can't be reached.
        ChangesDamagedError: a line of the changes can't be read.
        BookHeldError: somebody else writes in the book for too long. It is an OSError.
        OSError: the club's folder can't be read or written to.
    """
    if not anew and _nothing_new(book):
        return CaughtUp()
    with _alone(book) as connection:
        work = _begun(connection, book, now_ns, thorough=thorough, anew=anew)
        if len(work.names) <= _FEW and not waiting(connection):
            taken = _take(connection, book, work, work.names)
            derive(connection, rules_in(connection), taken.touched)
            _note_room(connection, book, work, work.folder_changed)
            return CaughtUp(taken.classes, tuple(taken.notices), work.forgot)
        _note_room(connection, book, work, 0)  # whoever comes next goes on where this ends
    return _by_batches(book, work)


def _begun(connection: Connection, book: Book, now_ns: int, *, thorough: bool, anew: bool) -> _Work:
    """Put the changes in, and look which files there are to be taken in."""
    digest, read = changes_digest(book.folder), _changes(book)
    if anew:
        forget_changes(connection, read.room)
    forgot = apply_changes(connection, read)
    changed = folder_changed(book.folder)
    names = to_look_at(connection, book.folder, read.room, thorough=thorough or anew)
    if anew:
        names = tuple(sorted({*names, *known_files(connection, read.room, "")}))
    settled = now_ns - changed > _SETTLED
    return _Work(read.room, names, digest, changed if settled else 0, anew, forgot)


def _changes(book: Book) -> Changes:
    if book.unshared and not (book.folder / CHANGES).exists():
        return Changes(book.room)
    return read_changes(book.folder)


def _by_batches(book: Book, work: _Work) -> CaughtUp:
    classes, notices = 0, []
    for names in steps("Taking classes in", list(_parted(work.names, _FILES_AT_ONCE))):
        _let_others_in(book)
        with _alone(book) as connection:
            taken = _take(connection, book, work, names)
            derive_later(connection, taken.touched)
        classes += taken.classes
        notices += taken.notices
    with book.reading() as connection:
        those = waiting(connection)
    for some in steps("Working out bests", list(_parted(those, _ATHLETES_AT_ONCE))):
        _let_others_in(book)
        with _alone(book) as connection:
            derive(connection, rules_in(connection), Touched(set(some), in_all=True))
    with _alone(book) as connection:
        _note_room(connection, book, work, work.folder_changed)
    return CaughtUp(classes, tuple(notices), work.forgot)


def _parted(names: Sequence[str], at_once: int) -> Iterator[tuple[str, ...]]:
    rest = iter(names)
    while part := tuple(islice(rest, at_once)):
        yield part


def _take(connection: Connection, book: Book, work: _Work, names: Sequence[str]) -> TakenIn:
    rules = rules_in(connection)
    return take_in(connection, book.folder, rules, work.room, names, anew=work.anew)


def _let_others_in(book: Book) -> None:
    if not book.unshared:
        let_others_in()


@contextmanager
def _alone(book: Book) -> Iterator[Connection]:
    """A connection on which nobody else writes, in this folder or on the server."""
    if book.unshared:
        with book.writing() as connection:
            yield connection
        return
    with book_lock(book.folder), book.writing() as connection:
        yield connection


# -- what the book says of this room ---------------------------------------------


def _nothing_new(book: Book) -> bool:
    digest = changes_digest(book.folder)
    changed = folder_changed(book.folder)
    with book.reading() as connection:
        known = connection.execute(
            select(rooms.c.folder_changed).where(
                rooms.c.changes_digest == digest, rooms.c.reads == document.VERSION
            )
        ).all()
    return bool(digest and changed) and [tuple(row) for row in known] == [(changed,)]


def _note_room(connection: Connection, book: Book, work: _Work, folder_changed: int) -> None:
    """`folder_changed` 0: every file is to be looked at."""
    connection.execute(delete(rooms).where(rooms.c.room == work.room))
    connection.execute(
        insert(rooms).values(
            room=work.room,
            folder_changed=folder_changed,
            changes_digest=work.digest,
            reads=document.VERSION,
            called=book.folder.resolve().name,
        )
    )
