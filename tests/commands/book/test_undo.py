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
