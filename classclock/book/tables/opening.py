"""Opening the book: SQLite in the club's folder, or the server that the environment names."""

import os
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, suppress
from pathlib import Path

from msgspec import Struct
from sqlalchemy import Connection, Engine
from sqlalchemy.exc import DBAPIError

from classclock.book.files.changes_file import NAME as CHANGES
from classclock.book.files.whole_changes_file import room_of
from classclock.book.tables.book_error import BookError
from classclock.book.tables.book_file import BUSY, FILE, file_engine, make_ready, version_of
from classclock.book.tables.book_lock import (
    BookHeldError,
    Holder,
    book_lock,
    held_words,
    holder_in,
)
from classclock.book.tables.schema import VERSION
from classclock.book.tables.server_address import VARIABLE, AddressError, is_locked, server_words
from classclock.book.tables.server_files import written_anew
from classclock.book.tables.server_tables import (
    drop_older,
    engine_for,
    is_made,
    keep_others_out,
    make_tables,
    who_writes,
)
from classclock.club.folder import private
from classclock.machine.opening import open_raw
from classclock.machine.replacing import put_in_place, take_away
from classclock.machine.syncing import sync_file, sync_folder

_WITHOUT_GAPS = "book-being-tidied.sqlite"
_ROOM = "classclock_room"
"""The option by which a connection knows whose it is."""


class Book(Struct, frozen=True):
    """An open book. `folder` is the club's, and `room` whose that is."""

    folder: Path
    engine: Engine
    room: str
    unshared: bool = False
    """Whether nobody else can get at it: a copy in memory, or one that is being made."""

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A connection to ask questions with.

        Raises:
            BookError: the book can't be reached, or is damaged.
            BookHeldError: somebody else had what was asked for longer than anybody waits.
        """
        with _in_words(self), self.engine.connect() as connection:
            yield connection.execution_options(**{_ROOM: self.room})

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A connection on which all that is written counts, or nothing of it.

        Raises:
            BookError: the book can't be reached, or is damaged.
            BookHeldError: somebody else had what was asked for longer than anybody waits.
        """
        with _in_words(self), self.engine.begin() as connection:
            if self.engine.dialect.name == "postgresql":
                keep_others_out(connection)
            yield connection.execution_options(**{_ROOM: self.room})

    def close(self) -> None:
        self.engine.dispose()


OpensBook = Callable[[Path], AbstractContextManager[Book]]
"""Opens a club's book for a question, and closes it."""


def open_book(folder: Path) -> Book:
    """Open the club's book; a missing one is made, an older one kept beside a new one.

    Raises:
        BookError: it can't be opened.
        ChangesDamagedError: the changes don't say which room it is.
        OSError: the folder can't be written to.
    """
    address = os.environ.get(VARIABLE)
    return _open_server(folder, address) if address else _open_file(folder)


def asking_room(connection: Connection) -> str:
    """The room that asks: its people go by their id alone, others by `ROOM/ID`."""
    return str(connection.get_execution_options()[_ROOM])


def on_a_server() -> bool:
    return bool(os.environ.get(VARIABLE))


def forget_deleted(book: Book) -> bool:
    """Leave nothing of deleted rows behind: in free pages of the file, or in older schemas.

    False where others hold the server's tables: rows that were deleted stay in their files until
    they are written over.

    Raises:
        BookError: the book can't be reached.
    """
    if book.engine.dialect.name == "postgresql":
        with book.writing() as connection:
            drop_older(connection)
        with book.reading() as connection:
            return written_anew(connection)
    with _in_words(book), book_lock(book.folder):
        _write_without_gaps(book)
    return True


def _write_without_gaps(book: Book) -> None:
    """Into another file, which takes the place of the book: in place each page is written twice."""
    made = book.folder / _WITHOUT_GAPS
    take_away(made)
    try:
        os.close(open_raw(made, os.O_CREAT | os.O_RDWR))  # for this account alone
        with book.reading() as connection:
            connection.execution_options(isolation_level="AUTOCOMMIT")
            connection.exec_driver_sql("VACUUM INTO ?", (str(made),))
        sync_file(made)
        book.close()
        put_in_place(made, book.folder / FILE)
        sync_folder(book.folder)
    finally:
        take_away(made)


def _open_file(folder: Path) -> Book:
    path = private(folder) / FILE
    if not path.exists() or version_of(path) != VERSION:
        with book_lock(folder):  # another thread or window may be making it
            make_ready(folder, path)
    return Book(folder, file_engine(path), room_named(folder))


def _open_server(folder: Path, address: str) -> Book:
    room = room_named(folder)
    try:
        engine = engine_for(address, room)
    except AddressError as error:
        raise BookError(str(error)) from None
    except ImportError:
        raise BookError(
            "a book on PostgreSQL needs its driver: pip install 'classclock[postgresql]'"
        ) from None
    book = Book(folder, engine, room)
    with book.reading() as connection:
        made = is_made(connection)
    if not made:
        with book.writing() as connection:
            make_tables(connection)
    return book


def room_named(folder: Path) -> str:
    """The room's name; whoever asks first gives it one."""
    if not (folder / CHANGES).exists():
        with book_lock(folder):
            return room_of(folder)
    return room_of(folder)


@contextmanager
def _in_words(book: Book) -> Iterator[None]:
    """Raises BookHeldError or BookError for what the storage says."""
    engine = book.engine
    try:
        yield
    except DBAPIError as error:
        if engine.dialect.name == "postgresql":
            if is_locked(error):
                raise BookHeldError(book.folder, held_words(*_writer(book))) from None
            raise BookError(server_words(error, engine.url)) from None
        if getattr(error.orig, "sqlite_errorcode", None) in BUSY:
            raise BookHeldError(book.folder, held_words(holder_in(book.folder))) from None
        where = engine.url.render_as_string()
        why = str(error.orig).strip().splitlines()[0]
        raise BookError(
            f"the book at {where} can't be used ({why}): `classclock book rebuild` makes it anew"
        ) from error


def _writer(book: Book) -> tuple[Holder, str]:
    with suppress(DBAPIError), book.engine.connect() as connection:
        return who_writes(connection)
    return Holder(), ""
