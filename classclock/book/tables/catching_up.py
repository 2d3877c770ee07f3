"""Bringing the book up to what the results files and `changes.jsonl` say.

Nothing but this writes the book, and a book made anew goes the same way. Where much is new it goes
in by batches, each whole by itself: others get at the book in between, and what is ended in the
middle goes on with the next.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import islice
from typing import NamedTuple

from msgspec import Struct
from sqlalchemy import Connection, delete, insert, select

from classclock.book.files.changes import Changes
from classclock.book.files.changes_file import NAME as CHANGES
from classclock.book.files.whole_changes_file import changes_digest, read_changes
from classclock.book.people_rules import PeopleRules, imports
from classclock.book.tables.applying import apply_changes, forget_changes, rules_in
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.class_files import TakenIn, take_in
from classclock.book.tables.deriving import Touched, derive, derive_later, waiting
from classclock.book.tables.large_imports import OnItsWay, half_way
from classclock.book.tables.opening import Book
from classclock.book.tables.schema import rooms
from classclock.book.tables.stale_files import folder_changed, known_files, to_look_at
from classclock.book.under_way import steps, told
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


class _ReadChanges(NamedTuple):
    """The changes as the file has them, and what tells whether it is as it was."""

    digest: str
    changes: Changes


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
    read = _read(book)  # before anybody has to wait: an import may be of years
    with _alone(book) as connection:
        if changes_digest(book.folder) != read.digest:
            read = _read(book)
        work = _begun(connection, book, read, now_ns, thorough=thorough, anew=anew)
        much = len(work.names) > _FEW or half_way(connection, read.changes.room)
        if not much and not waiting(connection):
            rules = rules_in(connection)
            taken = _take(connection, book, work, work.names, rules)
            derive(connection, rules, taken.touched)
            _note_room(connection, book, work, work.folder_changed)
            return CaughtUp(taken.classes, tuple(taken.notices), work.forgot)
        _note_room(connection, book, work, 0)  # whoever comes next goes on where this ends
    if not _bring_imports_in(book, work, read.changes):
        return catch_up(book, now_ns, thorough=True)
    return _by_batches(book, work)


class _Rules:
    """Who is who, folded anew only where some room's changes are others than before."""

    def __init__(self) -> None:
        self._digests: list[tuple[str, str]] | None = None
        self._rules = PeopleRules()

    def now(self, connection: Connection) -> PeopleRules:
        asked = select(rooms.c.room, rooms.c.changes_digest).order_by(rooms.c.room)
        digests = [(row.room, row.changes_digest) for row in connection.execute(asked)]
        if digests != self._digests:
            self._digests, self._rules = digests, rules_in(connection)
        return self._rules


def _read(book: Book) -> _ReadChanges:
    digest = changes_digest(book.folder)
    if book.unshared and not (book.folder / CHANGES).exists():
        return _ReadChanges(digest, Changes(book.room))
    return _ReadChanges(digest, read_changes(book.folder))


def _begun(
    connection: Connection,
    book: Book,
    read: _ReadChanges,
    now_ns: int,
    *,
    thorough: bool,
    anew: bool,
) -> _Work:
    """Put the changes in, and look which files there are to be taken in."""
    room = read.changes.room
    if anew:
        forget_changes(connection, room)
    forgot = apply_changes(connection, read.changes)
    changed = folder_changed(book.folder)
    names = to_look_at(connection, book.folder, room, thorough=thorough or anew)
    if anew:
        names = tuple(sorted({*names, *known_files(connection, room, "")}))
    settled = now_ns - changed > _SETTLED
    return _Work(room, names, read.digest, changed if settled else 0, anew, forgot)


def _bring_imports_in(book: Book, work: _Work, read: Changes) -> bool:
    """Imports too large for one batch, in or out; False where somebody has changed them since."""
    with book.reading() as connection:
        numbers = half_way(connection, work.room)
    standing = {line.n: line for line in imports(read.lines)}
    rules = _Rules()
    for number in numbers:
        imported = standing.get(number)
        words = "Taking an import out" if imported is None else "Putting an import in"
        one, more = OnItsWay(work.room, number, imported), True
        while more:
            told(words, one.done, one.of)
            _let_others_in(book)
            with _alone(book) as connection:
                if _digest_in(connection, work.room) != work.digest:
                    return False
                more = one.go_on(connection, rules.now(connection))
        told(words, one.of, one.of)
    return True


def _by_batches(book: Book, work: _Work) -> CaughtUp:
    classes, notices, rules = 0, [], _Rules()
    for names in steps("Taking classes in", list(_parted(work.names, _FILES_AT_ONCE))):
        _let_others_in(book)
        with _alone(book) as connection:
            taken = _take(connection, book, work, names, rules.now(connection))
            derive_later(connection, taken.touched)
        classes += taken.classes
        notices += taken.notices
    with book.reading() as connection:
        those = waiting(connection)
    for some in steps("Working out bests", list(_parted(those, _ATHLETES_AT_ONCE))):
        _let_others_in(book)
        with _alone(book) as connection:
            derive(connection, rules.now(connection), Touched(set(some), in_all=True))
    with _alone(book) as connection:
        _note_room(connection, book, work, work.folder_changed)
    return CaughtUp(classes, tuple(notices), work.forgot)


def _parted(names: Sequence[str], at_once: int) -> Iterator[tuple[str, ...]]:
    rest = iter(names)
    while part := tuple(islice(rest, at_once)):
        yield part


def _take(
    connection: Connection, book: Book, work: _Work, names: Sequence[str], rules: PeopleRules
) -> TakenIn:
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


def _digest_in(connection: Connection, room: str) -> str | None:
    """Of the changes of a room that are in the book."""
    return connection.execute(select(rooms.c.changes_digest).where(rooms.c.room == room)).scalar()


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
