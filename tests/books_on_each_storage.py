"""A club's book on each kind of storage, empty for each test."""

import os
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from sqlalchemy import create_engine, delete, select, text
from sqlalchemy.engine import make_url

from classclock.book.tables.applying import rules_in
from classclock.book.tables.catching_up import CaughtUp, catch_up
from classclock.book.tables.deriving import Touched, derive
from classclock.book.tables.opening import Book, open_book
from classclock.book.tables.schema import RECORDED, athletes, changes, efforts_given, files, rooms
from classclock.book.tables.server_address import VARIABLE

SERVER = os.environ.get("CLASSCLOCK_TEST_POSTGRESQL")
"""A server on this machine on which tests may make databases, as in CLASSCLOCK_BOOK."""
NOW = 0
"""So early that every file is looked at: their folder changed later."""


@pytest.fixture(
    params=[
        "sqlite",
        pytest.param(
            "postgresql",
            marks=pytest.mark.skipif(SERVER is None, reason="CLASSCLOCK_TEST_POSTGRESQL not set"),
        ),
    ]
)
def storage(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """The book is kept there as long as the test runs."""
    if request.param == "sqlite":
        monkeypatch.delenv(VARIABLE, raising=False)
        yield "sqlite"
        return
    name = f"classclock_test_{os.urandom(6).hex()}"
    server = create_engine(str(SERVER), isolation_level="AUTOCOMMIT")
    with server.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
    address = make_url(str(SERVER)).set(database=name)
    monkeypatch.setenv(VARIABLE, address.render_as_string(hide_password=False))
    yield "postgresql"
    with server.connect() as connection:
        connection.execute(text(f"DROP DATABASE {name} WITH (FORCE)"))
    server.dispose()


@pytest.fixture
def open_depot(storage: str, depot: Any) -> Iterator[Callable[[], Book]]:
    """Opens the Depot's book, as often as asked; each is closed at the end."""
    opened: list[Book] = []

    def make() -> Book:
        opened.append(open_book(depot.folder))
        return opened[-1]

    yield make
    for book in opened:
        book.close()


@pytest.fixture
def book(open_depot: Callable[[], Book]) -> Book:
    return open_depot()


@pytest.fixture
def up_to_date(book: Book) -> Callable[[], CaughtUp]:
    """Brings the book up to the club's files."""
    return lambda: catch_up(book, NOW)


def emptied(book: Book) -> None:
    """Take this room's part out of the tables, as if it had been lost: the files bring it back."""
    with book.writing() as connection:
        for table in (*RECORDED, efforts_given):
            ours = table.c.class_key.startswith(f"{book.room}/", autoescape=True)
            connection.execute(delete(table).where(ours))
        for table in (files, rooms, changes):
            connection.execute(delete(table).where(table.c.room == book.room))
        everybody = set(connection.execute(select(athletes.c.athlete)).scalars())
        derive(connection, rules_in(connection), Touched(everybody, in_all=True))
