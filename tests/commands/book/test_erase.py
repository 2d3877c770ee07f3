"""`book erase`, as it is typed; what it reaches is tested where a class was held."""

import json

import pytest

from tests.commands.typed import CommandSays

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_without_yes_it_is_only_said_what_would_go(command_says: CommandSays) -> None:
    before = command_says("chart", "--json")
    said = command_says("book", "erase", "Bram")
    assert said.startswith("Bram: would be taken out of the book and of 1 journal or results file.")
    assert said.endswith("It can't be taken back: add --yes to do it.\n")
    assert command_says("chart", "--json") == before


def test_with_yes_they_are_forgotten(command_says: CommandSays) -> None:
    assert json.loads(command_says("book", "erase", "Bram", "--yes", "--json"))["erased"]
    rows = json.loads(command_says("chart", "--json"))["rows"]
    assert [row["name"] for row in rows] == ["Ilse"]
