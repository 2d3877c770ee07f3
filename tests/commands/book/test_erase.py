"""`book erase`, as it is typed; what it reaches is tested where a class was held."""

import io
import json
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import CommandSays, Typed

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


@pytest.fixture
def texts_with_bram(depot: Any, club_with_classes: None) -> Path:
    """A reason and a plan in which Bram's name stands."""
    reason = "corrected: Bram called six"
    depot.held("2020-01-21", depot.turntable(depot.rounds("Ilse", 7, note=reason)))
    plan: Path = depot.folder / "plans" / "week.toml"
    plan.parent.mkdir()
    plan.write_text('title = "Week"\nnotes = ["Bram: no jumps"]\n', "utf-8")
    return plan


def test_texts_with_the_name_are_listed_with_what_becomes_of_them(
    command_says: CommandSays, typed: Typed, texts_with_bram: Path
) -> None:
    listed = command_says("book", "erase", "Bram")
    assert (
        "Text with the name in it:\n"
        "  1. the name goes in a reason of a correction: Bram called six "
        "(2020-01-21-1830-depot.json)\n"
        '  2. the name stays in a plan: notes = ["Bram: no jumps"] (week.toml)\n'
    ) in listed
    other = command_says("book", "erase", "Bram", "--keep", "1", "--take-out", "2", "--yes")
    assert "  1. the name stays in a reason of a correction: Bram called six" in other
    assert "  2. the name is gone in a plan" in other
    assert "Bram called six" in command_says("results", "--json")
    assert texts_with_bram.read_text("utf-8").endswith('notes = ["erased: no jumps"]\n')


def test_a_number_that_no_text_has_is_refused(typed: Typed, texts_with_bram: Path) -> None:
    assert texts_with_bram.exists()
    said = typed("book", "erase", "Bram", "--keep", "3", "--yes")
    assert (said.status, said.err) == (2, "there is no text 3: write 1 to 2\n")
    assert "Bram" in typed("chart").out
    assert typed("book", "erase", "Ilse", "--take-out", "1").err == (
        "there is no text 1: no text has the name\n"
    )
    assert typed("book", "erase", "Ilse", "--keep", "one").status == 2


def test_at_a_terminal_each_text_is_asked_about(
    command_says: CommandSays, texts_with_bram: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("classclock.commands.book.erase.can_ask", lambda: True)
    monkeypatch.setattr("sys.stdin", io.StringIO("2\n1\n"))
    said = command_says("book", "erase", "Bram", "--yes")
    assert "a reason of a correction: Bram called six (2020-01-21-1830-depot.json)." in said
    assert "  1. the name stays in a reason of a correction" in said
    assert "Bram called six" in command_says("results", "--json")
    assert "Bram: no jumps" in texts_with_bram.read_text("utf-8")


def test_without_an_answer_nothing_is_done(
    typed: Typed, texts_with_bram: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("classclock.commands.book.erase.can_ask", lambda: True)
    monkeypatch.setattr("sys.stdin", io.StringIO("1\n"))
    assert texts_with_bram.exists()
    said = typed("book", "erase", "Bram", "--yes")
    assert said.status == 1
    assert said.err == "No answer: nobody was erased. Start it again when you know.\n"
    assert "Bram" in typed("chart").out


def test_whom_only_an_undone_import_names_is_found(
    command_says: CommandSays, typed: Typed, old_scores: Path
) -> None:
    command_says("book", "import", str(old_scores))
    command_says("book", "undo")
    assert typed("athlete", "Odell").status == 2
    assert command_says("book", "erase", "odell", "--yes").startswith("Odell: taken out of")
    assert typed("book", "erase", "odell").status == 2
