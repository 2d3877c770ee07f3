"""`book import`, as it is typed."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_a_dry_run_says_what_would_go_in_and_changes_nothing(
    command_says: CommandSays, old_scores: Path
) -> None:
    before = command_says("chart", "--json")
    told = command_says("book", "import", str(old_scores), "--dry-run")
    assert told == "3 scores would go in. Without --dry-run they do.\nNew in the book: Odell.\n"
    assert command_says("chart", "--json") == before


def test_old_scores_go_in_once_and_can_be_taken_out_again(
    command_says: CommandSays, old_scores: Path
) -> None:
    before = command_says("chart", "--json")
    assert "3 scores went in" in command_says("book", "import", str(old_scores))
    rows = json.loads(command_says("chart", "--json"))["rows"]
    bests = {row["name"]: row["bests"]["turntable"]["score"] for row in rows}
    assert bests == {"Bram": "6+3", "Ilse": "9+1", "Odell": "8+0"}
    again = command_says("book", "import", str(old_scores))
    assert "3 rows left out: the book has them" in again
    command_says("book", "undo")
    assert command_says("chart", "--json") == before


def test_nothing_of_a_file_with_a_bad_row_goes_in(
    command_says: CommandSays, typed: Typed, old_scores: Path
) -> None:
    with old_scores.open("a", encoding="utf-8") as file:
        file.write("Noor,Turntable,lots,2020-02-01\n")
    before = command_says("chart", "--json")
    said = typed("book", "import", str(old_scores))
    assert said.status == 1
    assert 'old.csv:5  "lots" is no score' in said.err
    assert command_says("chart", "--json") == before


def test_two_people_of_one_name_must_differ_before_scores_go_to_either(
    depot: Any, typed: Typed, old_scores: Path
) -> None:
    depot.held("2020-01-21", depot.turntable(depot.rounds("Ilse", 5, members=["ilse-2"])))
    said = typed("book", "import", str(old_scores))
    assert said.status == 1
    assert "2 people in the book are called Ilse. Rename one of them first" in said.err


def test_a_row_goes_to_whom_it_names_in_whichever_form(
    depot: Any, command_says: CommandSays, tmp_path: Path
) -> None:
    composed, apart = "Zo\u00eb", "Zoe\u0308"
    person = {"id": "q7", "name": apart, "key": "z"}
    lane = depot.rounds(apart, 5, members=["q7"])
    depot.held("2020-01-21", depot.turntable(lane), people=[person])
    rows = [f"{name},Turntable,{n}+1,2020-02-0{n}" for n, name in enumerate((composed, apart), 1)]
    rows += [
        f"{name},Turntable,9+{n},2020-02-01" for n, name in enumerate(("Jos\u00e9", "Jose\u0301"))
    ]
    path = tmp_path / "forms.csv"
    path.write_text("\n".join(["name,benchmark,score,date", *rows]), "utf-8")
    assert "New in the book: Jos\u00e9.\n" in command_says("book", "import", str(path))
    people = json.loads(command_says("chart", "--json"))["rows"]
    assert [row["name"] for row in people] == ["Bram", "Ilse", "Jos\u00e9", apart]
