"""`book rename`, as it is typed."""

import json

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_somebody_is_shown_under_another_name(command_says: CommandSays) -> None:
    assert command_says("book", "rename", "Ilse", "Ilse B") == "Ilse is Ilse B now.\n"
    rows = json.loads(command_says("chart", "--json"))["rows"]
    assert [row["name"] for row in rows] == ["Bram", "Ilse B"]


@pytest.mark.parametrize(
    ("new", "words"),
    [
        ("ilse", "somebody else is called ilse: add an initial, or merge the two"),
        ("  ", "that name can't be shown: write 1 to 60 letters"),
    ],
)
def test_a_name_that_cant_be_given_is_refused(typed: Typed, new: str, words: str) -> None:
    said = typed("book", "rename", "Bram", new)
    assert said.status == 2
    assert words in said.err


def test_no_second_spelling_of_a_name_is_given(typed: Typed) -> None:
    composed, apart = "Zo\u00eb", "Zoe\u0308"
    assert typed("book", "rename", "Ilse", apart).out == f"Ilse is {composed} now.\n"
    said = typed("book", "rename", "Bram", apart.upper())
    assert said.status == 2
    assert "merge the two if they are one" in said.err
    assert typed("book", "rename", composed, "Ilse").status == 0
