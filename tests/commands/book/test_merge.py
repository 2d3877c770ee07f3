"""`book merge`, as it is typed."""

import json
from typing import Any

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


def test_without_names_it_says_who_may_be_one(depot: Any, typed: Typed) -> None:
    composed, apart = "Zo\u00eb", "Zoe\u0308"
    for day, ident, name in (
        ("2020-02-01", "q7", apart),
        ("2020-02-08", "q8", composed),
        ("2020-02-15", "q8", composed),
    ):
        lane = depot.rounds(name, 5, members=[ident])
        person = {"id": ident, "name": name, "key": "z"}
        depot.held(day, depot.turntable(lane), people=[person])
    assert typed("book", "merge").out.splitlines() == [
        f"{composed}: 2 entries have this name.",
        "  q8: 2 classes, last here 2020-02-15",
        "  q7: 1 class, last here 2020-02-01",
        "  one person? classclock book merge q7 q8",
    ]
    said = typed("athlete", composed)
    assert said.status == 2
    assert "classclock book merge" in said.err
    assert typed("book", "merge", "q7", "q8").status == 0
    assert typed("book", "merge").out == "No two people in the book have one name.\n"
    assert json.loads(typed("book", "merge", "--json").out) == {"same_name": []}
    assert typed("athlete", apart).status == 0


def test_one_name_alone_is_asked_about(typed: Typed) -> None:
    said = typed("book", "merge", "Ilse")
    assert (said.status, said.err) == (2, "into whom? classclock book merge Ilse KEPT-NAME\n")
