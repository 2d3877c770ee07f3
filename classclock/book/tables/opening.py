"""Opening the book: SQLite in the club's folder, or the server that the environment names."""

import os
import re
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

from msgspec import Struct
from sqlalchemy import URL, Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.exc import DBAPIError, InterfaceError, OperationalError

from classclock.book.files.changes import NAME as CHANGES
from classclock.book.files.changes import room_of
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.schema import VERSION, metadata
from classclock.book.tables.server_address import (
    VARIABLE,
    AddressError,
    read_address,
    server_engine,
    shown_address,
    without_secrets,
)
from classclock.book.tables.server_files import written_anew
from classclock.club.folder import private
from classclock.machine.opening import open_raw
from classclock.machine.replacing import put_in_place

FILE = "book.sqlite"
_WAIT = 5
"""Seconds after which a server that doesn't answer counts as gone."""
_ROOM = "classclock_room"
"""The option by which a connection knows whose it is."""
_OUR_LOCK = 0x636C6173
"""PostgreSQL's advisory lock that one writer of the book holds."""


class BookError(Exception):
    """The book can't be used; `str` says why and what to do, in plain words."""


class Book(Struct, frozen=True):
    """An open book. `folder` is the club's, and `room` whose that is."""

    folder: Path
    engine: Engine
    room: str
    in_memory: bool = False
    """Whether it is a copy for the while that it is open: the folder can only be read."""

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A connection to ask questions with.

        Raises:
            BookError: the book can't be reached, or is damaged.
        """
        with _in_words(self.engine), self.engine.connect() as connection:
            yield connection.execution_options(**{_ROOM: self.room})

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A connection on which all that is written counts, or nothing of it.

        Raises:
            BookError: the book can't be reached, or is damaged.
        """
        with _in_words(self.engine), self.engine.begin() as connection:
            if self.engine.dialect.name == "postgresql":
                connection.execute(text(f"SELECT pg_advisory_xact_lock({_OUR_LOCK})"))
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


def kept_versions(folder: Path) -> tuple[Path, ...]:
    """Books that were put aside: of an older version, or damaged."""
    return tuple(sorted(folder.glob("book-*.sqlite")))


def forget_deleted(book: Book) -> bool:
    """Leave nothing of deleted rows behind: in free pages of the file, or in older schemas.

    False where others hold the server's tables: rows that were deleted stay in their files until
    they are written over.

    Raises:
        BookError: the book can't be reached.
    """
    if book.engine.dialect.name == "postgresql":
        with book.writing() as connection:
            for version in range(1, VERSION):
                gone = schema_name(version)
                connection.execute(text(f"DROP SCHEMA IF EXISTS {gone} CASCADE"))
        with book.reading() as connection:
            return written_anew(connection)
    with book.reading() as connection:
        connection.execution_options(isolation_level="AUTOCOMMIT").execute(text("VACUUM"))
    return True


def put_aside(folder: Path, name: str) -> None:
    """Keep the book's file under another name, `book-NAME.sqlite`, so that a new one is made."""
    path = folder / FILE
    if path.exists():
        put_in_place(path, _free(folder, name))


def _free(folder: Path, name: str) -> Path:
    path, number = folder / f"book-{name}.sqlite", 1
    while path.exists():
        number += 1
        path = folder / f"book-{name}-{number}.sqlite"
    return path


# -- a file ----------------------------------------------------------------------


def _open_file(folder: Path) -> Book:
    path = private(folder) / FILE
    if not path.exists() or _version(path) != VERSION:
        with book_lock(folder):  # another thread or window may be making it
            _make_ready(folder, path)
    return Book(folder, _engine(path), _room(folder))


def _room(folder: Path) -> str:
    """The room's name; whoever asks first gives it one."""
    if not (folder / CHANGES).exists():
        with book_lock(folder):
            return room_of(folder)
    return room_of(folder)


def _make_ready(folder: Path, path: Path) -> None:
    """Leave a book of this version there, empty if it is a new one."""
    if path.exists():
        version = _version(path)
        if version > VERSION:
            raise BookError(
                f"{path} was written by a newer classclock: update classclock, or move that file "
                "away and a new book is made from the results files"
            )
        if version == VERSION:
            return
        put_aside(folder, f"v{version}")
    os.close(open_raw(path, os.O_CREAT | os.O_RDWR))
    engine = _engine(path)
    with engine.begin() as connection:
        metadata.create_all(connection)
        connection.execute(text(f"PRAGMA user_version = {VERSION}"))
    engine.dispose()


def _engine(path: Path) -> Engine:
    engine = create_engine(
        URL.create("sqlite", database=str(path)),
        connect_args={"timeout": 10},
        hide_parameters=True,
    )
    event.listen(engine, "connect", _forget_fully)
    return engine


def _version(path: Path) -> int:
    connection = sqlite3.connect(path)
    try:
        version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    except sqlite3.DatabaseError:
        raise BookError(
            f"{path} is damaged: `classclock book rebuild` puts it aside and makes it anew"
        ) from None
    finally:
        connection.close()
    return version


def _forget_fully(connection: sqlite3.Connection, _: object) -> None:
    """What is deleted is overwritten: nobody who was erased can be read from free pages."""
    connection.execute("PRAGMA secure_delete = ON")
    connection.execute("PRAGMA cache_size = -65536")


# -- a server --------------------------------------------------------------------


def _open_server(folder: Path, address: str) -> Book:
    try:
        engine = server_engine(
            read_address(address),
            connect_timeout=_WAIT,
            options=f"-csearch_path={schema_name(VERSION)}",
        )
    except AddressError as error:
        raise BookError(str(error)) from None
    except ImportError:
        raise BookError(
            "a book on PostgreSQL needs its driver: pip install 'classclock[postgresql]'"
        ) from None
    book = Book(folder, engine, _room(folder))
    with book.writing() as connection:
        connection.execute(text(f"CREATE SCHEMA IF NOT EXISTS {schema_name(VERSION)}"))
        metadata.create_all(connection)
    return book


def later_schemas(connection: Connection) -> tuple[str, ...]:
    """On a server the books of a later classclock: they hold what this one erases."""
    if connection.dialect.name != "postgresql":
        return ()
    found = inspect(connection).get_schema_names()
    numbers = (re.fullmatch(r"classclock_v(\d+)", name, re.ASCII) for name in found)
    return tuple(sorted(one[0] for one in numbers if one and int(one[1]) > VERSION))


def schema_name(version: int) -> str:
    """On a server each version of the book has a schema of its own; older ones are kept."""
    return f"classclock_v{version}"


@contextmanager
def _in_words(engine: Engine) -> Iterator[None]:
    try:
        yield
    except DBAPIError as error:
        if engine.dialect.name == "postgresql":
            raise BookError(_of_the_server(error, engine.url)) from None
        where = engine.url.render_as_string()
        why = str(error.orig).strip().splitlines()[0]
        raise BookError(
            f"the book at {where} can't be used ({why}): `classclock book rebuild` makes it anew"
        ) from error


def _of_the_server(error: DBAPIError, address: URL) -> str:
    where = shown_address(address)
    if isinstance(error, OperationalError | InterfaceError):
        return (
            f"the book at {where} can't be reached: classes run on, and their results go in "
            "when it is back"
        )
    first, *_ = [*str(error.orig).strip().splitlines(), ""]
    why = without_secrets(first, address)
    return (
        f"the book at {where} can't be used{f' ({why})' if why else ''}: put {VARIABLE} right, "
        "or `classclock book rebuild` makes it anew"
    )
