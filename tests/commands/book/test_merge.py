"""`book merge`, as it is typed."""

import json

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_two_entries_become_one(command_says: CommandSays) -> None:
    said = command_says("book", "merge", "Bram", "Ilse")
    assert said == "All that was Bram's is Ilse's.\n"
    rows = json.loads(command_says("chart", "--json"))["rows"]
    assert [row["name"] for row in rows] == ["Ilse"]


def test_one_entry_cant_be_merged_with_itself(typed: Typed) -> None:
    said = typed("book", "merge", "Ilse", "Ilse")
    assert (said.status, said.err) == (2, "both names are one entry already\n")
