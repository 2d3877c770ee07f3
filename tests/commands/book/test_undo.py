"""`book undo`, as it is typed."""

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_what_was_taken_back_is_told_by_its_names(command_says: CommandSays) -> None:
    command_says("book", "rename", "Ilse", "Ilse V.")
    assert command_says("book", "undo") == "Taken back: the name Ilse V., it is Ilse again.\n"
    command_says("book", "merge", "Bram", "Ilse")
    assert command_says("book", "undo") == "Taken back: the merge of Bram into Ilse.\n"
    command_says("book", "mark", "Ilse", "newcomer")
    assert command_says("book", "undo") == "Taken back: the mark newcomer on Ilse.\n"


def test_where_nothing_was_changed_there_is_nothing_to_take_back(typed: Typed) -> None:
    said = typed("book", "undo")
    assert said.status == 2
    assert said.err == "there is no change to take back; an erasure can't be\n"


def test_a_change_is_taken_back_by_its_number(command_says: CommandSays, typed: Typed) -> None:
    command_says("book", "rename", "Ilse", "Ilse V.")
    command_says("book", "mark", "Bram", "newcomer")
    assert command_says("book", "undo", "1") == "Taken back: the name Ilse V., it is Ilse again.\n"
    for number, words in (
        ("1", "change 1 is taken back already: classclock book changes lists them\n"),
        ("9", "there is no change 9: classclock book changes lists them\n"),
    ):
        said = typed("book", "undo", number)
        assert (said.status, said.err) == (2, words)
    assert "marked: newcomer" in command_says("athlete", "Bram")


@pytest.mark.parametrize("written", ["-1", "\u0661", "1e3", "one"])
def test_a_number_is_written_with_plain_digits(typed: Typed, written: str) -> None:
    assert typed("book", "undo", written).status == 2
