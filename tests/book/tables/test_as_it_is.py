"""The book as whoever asked last has left it, for who only looks on."""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import pytest
from sqlalchemy import text

from classclock.book.asking.reading_bests import read_own_bests
from classclock.book.tables.as_it_is import book_as_it_is
from classclock.book.tables.book_error import BookError
from classclock.book.tables.catching_up import CaughtUp
from classclock.book.tables.keeping import caught_up
from classclock.book.tables.opening import Book

LATER = datetime(2027, 1, 1, tzinfo=UTC)


def test_it_tells_what_was_put_in_and_not_what_is_only_in_the_files(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    depot.held("2026-10-06", depot.squats(depot.lifted("Ilse", "80 kg")))
    up_to_date()
    asked = (depot.folder, ["ilse"], ["front squat"], LATER)
    now = read_own_bests(*asked, book_as_it_is)
    assert now.history[("ilse", "front squat")]
    assert now == read_own_bests(*asked, caught_up)
    depot.held("2026-10-13", depot.squats(depot.lifted("Ilse", "90 kg")))
    assert read_own_bests(*asked, book_as_it_is) == now
    assert read_own_bests(*asked, caught_up) != now


def test_nothing_can_be_written_to_it(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    up_to_date()
    with (
        book_as_it_is(depot.folder) as there,
        pytest.raises(BookError),
        there.writing() as connection,
    ):
        connection.execute(text("CREATE TABLE scribble (word TEXT)"))


@pytest.mark.usefixtures("storage")
def test_where_there_is_none_none_is_made(depot: Any) -> None:
    before = set(depot.folder.rglob("*"))
    with pytest.raises(BookError, match="no book yet"), book_as_it_is(depot.folder):
        pass
    assert set(depot.folder.rglob("*")) == before


def test_a_server_that_is_away_is_said_in_words(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp], monkeypatch: pytest.MonkeyPatch
) -> None:
    up_to_date()
    monkeypatch.setenv("CLASSCLOCK_BOOK", "postgresql+psycopg://coach@127.0.0.1:1/depot")
    with (
        pytest.raises(BookError, match="can't be reached"),
        book_as_it_is(depot.folder) as away,
        away.reading(),
    ):
        pass
