"""`book rebuild`, as it is typed."""

from typing import Any

import pytest

from tests.commands.typed import CommandSays

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_the_book_is_made_anew_and_says_from_how_much(
    command_says: CommandSays, storage: str, depot: Any
) -> None:
    before = command_says("chart", "--json")
    if storage == "sqlite":
        (depot.folder / "book.sqlite").write_bytes(b"not a book any more" * 99)
    assert command_says("book", "rebuild") == "The book is made anew from 2 classes.\n"
    assert command_says("chart", "--json") == before
    if storage == "sqlite":
        assert (depot.folder / "book-damaged.sqlite").exists()
