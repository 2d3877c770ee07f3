"""`book import`, as it is typed."""

import io
import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.book.importing.messy_sheets import messy_sheets
from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_a_dry_run_says_what_would_go_in_and_changes_nothing(
    command_says: CommandSays, old_scores: Path
) -> None:
    before = command_says("chart", "--json")
    told = command_says("book", "import", str(old_scores), "--dry-run")
    assert told.splitlines() == [
        "Read as text in UTF-8, with , between the columns.",
        '  "name"       name       Ilse',
        '  "benchmark"  benchmark  Turntable',
        '  "score"      score      9+1',
        '  "date"       date       2020-02-01',
        "3 scores would go in. Without --dry-run they do.",
        "Not in the book yet: Odell.",
    ]
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
    assert "undo" not in again
    command_says("book", "undo")
    assert command_says("chart", "--json") == before


def test_the_undo_that_is_offered_takes_out_this_import_and_nothing_else(
    command_says: CommandSays, old_scores: Path
) -> None:
    command_says("book", "rename", "Bram", "Bram B")
    assert "`classclock book undo 2`" in command_says("book", "import", str(old_scores))
    command_says("book", "mark", "Ilse", "newcomer")
    command_says("book", "undo", "2")
    names = [row["name"] for row in json.loads(command_says("chart", "--json"))["rows"]]
    assert names == ["Bram B", "Ilse"]
    assert "marked: newcomer" in command_says("athlete", "Ilse")


SLIPS = "Ilsee,Turntable,8+2,2024-06-01\nBram,Front squat,9999 kg,2024-06-08\n"


def test_without_a_terminal_questions_are_a_list_and_nothing_goes_in(
    command_says: CommandSays, typed: Typed, tmp_path: Path
) -> None:
    path = tmp_path / "slips.csv"
    path.write_text(f"name,benchmark,score,date\n{SLIPS}", "utf-8")
    before = command_says("chart", "--json")
    for more in ((), ("--dry-run",)):
        said = typed("book", "import", str(path), *more)
        assert said.status == 1
        assert "2 questions first:" in said.out
        assert '--answer "name:Ilsee=Ilse"  yes, it is Ilse' in said.out
        assert "9999 kg (line 3)" in said.out
        assert "Nothing went in yet" in said.out
        assert command_says("chart", "--json") == before
    asked = json.loads(typed("book", "import", str(path), "--json").out)["questions"]
    assert [one["key"] for one in asked] == ["name:Ilsee", "far:front squat"]
    answers = ("--answer", "name:Ilsee=Ilse", "--answer", "far:front squat=leave-out")
    said = typed("book", "import", str(path), *answers)
    assert said.status == 0
    assert "1 score went in." in said.out
    assert "1 row left out, as you said." in said.out


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ("name:Ilsee=Bram", '"Bram" is no answer to name:Ilsee: write Ilse, new, leave-out'),
        ("name:*=Bram", '"Bram" is no answer to name:*: write Ilse, new, leave-out'),
        ("days=day-first", "nothing is asked about days: take that --answer out"),
        ("days", "write QUESTION=CHOICE"),
    ],
)
def test_an_answer_that_fits_no_question_is_refused(
    typed: Typed, tmp_path: Path, answer: str, words: str
) -> None:
    path = tmp_path / "slips.csv"
    path.write_text(f"name,benchmark,score,date\n{SLIPS}", "utf-8")
    said = typed("book", "import", str(path), "--answer", answer)
    assert said.status == 2
    assert words in said.err


@pytest.fixture
def at_a_terminal(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Types these lines, as somebody at a terminal would."""

    class Keyboard(io.StringIO):
        def isatty(self) -> bool:
            return True

    def types(lines: str) -> None:
        monkeypatch.setattr(sys, "stdin", Keyboard(lines))
        monkeypatch.setattr(sys.stdout, "isatty", lambda: True)

    return types


def test_in_a_terminal_each_question_is_asked_and_what_was_said_is_remembered(
    typed: Typed, tmp_path: Path, at_a_terminal: Callable[[str], None]
) -> None:
    path = tmp_path / "own.csv"
    path.write_text("Lid,Piece,Score,Date\nIlsee,Turntable,8+2,2024-06-01\n", "utf-8")
    at_a_terminal("7\n1\n1\n")
    said = typed("book", "import", str(path))
    assert (said.status, said.err) == (0, "")
    assert "which column says who it was?" in said.out
    assert "Ilsee: did you mean Ilse? (line 2)" in said.out
    assert "1 score went in" in said.out
    at_a_terminal("")
    path.write_text("Lid,Piece,Score,Date\nIlse,Turntable,8+1,2024-06-02\n", "utf-8")
    assert "1 score went in" in typed("book", "import", str(path)).out


def test_who_gives_no_answer_changes_nothing(
    command_says: CommandSays, typed: Typed, tmp_path: Path, at_a_terminal: Callable[[str], None]
) -> None:
    path = tmp_path / "slips.csv"
    path.write_text(f"name,benchmark,score,date\n{SLIPS}", "utf-8")
    before = command_says("chart", "--json")
    at_a_terminal("1\n")
    said = typed("book", "import", str(path))
    assert said.status == 1
    assert said.err == "No answer: nothing went in. Start it again when you know.\n"
    assert command_says("chart", "--json") == before


@pytest.mark.parametrize("written", ["Who", "Who=nobody", "=name"])
def test_columns_that_arent_said_as_they_should_are_refused(typed: Typed, written: str) -> None:
    said = typed("book", "import", "old.csv", "--columns", written)
    assert said.status == 2
    assert "write HEADING=FIELD" in said.err


def test_five_messy_sheets_and_what_each_asks(
    depot: Any, typed: Typed, tmp_path: Path, storage: str
) -> None:
    depot.held("2020-01-21", depot.third_rail(depot.timed("Ilse", "10:30"), benchmark="third rail"))
    asked = {
        "notebook.csv": ["days"],
        "board.xlsx": ["sheet"],
        "ledger.ods": [f"column:{one}" for one in ("name", "benchmark", "score", "date")],
        "phone.txt": [],
        "slips.csv": [
            "name:Ilsee",
            "numbers:third rail",
            "times",
            "benchmark:turn table",
            "far:turntable",
            "far:front squat",
        ],
    }
    for file, raw in messy_sheets().items():
        (tmp_path / file).write_bytes(raw)
        said = typed("book", "import", str(tmp_path / file), "--json", "--dry-run")
        keys = [one["key"] for one in json.loads(said.out)["questions"]]
        assert (said.status, said.err) == (1 if keys else 0, "")
        assert keys == asked[file]


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
