"""A column added to the results, as DEVELOPERS.md tells how, in a copy of the program.

Classes of the versions before it still replay as saved, and whoever asks is erased from them.
"""

import csv
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import classclock
from classclock.book.files.journal import read_journal
from classclock.book.files.results_writing import write_document
from classclock.book.files.saved_results import LaterResultsError, read_results, saved_for
from classclock.live.replaying import replayed
from classclock.records.class_document import results_document
from classclock.records.document import COLUMNS, VERSION
from tests.old_clubs.old_club import CLUBS

PROGRAM = Path(classclock.__file__).parent
NEW = "fastest_s"
ITS_VALUE = f"""
    @property
    def {NEW}(self) -> int | None:
        return min((split for split in self.splits if split is not None), default=None)
"""
ITS_FIELD = ("    note: str\n", f"    note: str\n    {NEW}: Int32 | UnsetType | None = UNSET\n")
ITS_VERSION = (f"VERSION = {VERSION}\n", f"VERSION = {VERSION + 1}\n")
ASKED = """
import contextlib, io, json, sys
from pathlib import Path
from classclock.book.files.journal import read_journal
from classclock.book.files.results_writing import write_document
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.records.class_document import results_document

def save(journal, results):
    read = read_journal(Path(journal))
    started = read.anchors[0].wall
    document = results_document(replayed(read), started=started, journal=Path(journal).name)
    write_document(Path(results), document)
    return 0

said = []
for name, *words in json.loads(sys.argv[1]):
    with contextlib.redirect_stdout(io.StringIO()) as out:
        status = save(*words) if name == "save" else main([name, *words])
    said.append([status, out.getvalue()])
print(json.dumps(said))
"""
Ask = Callable[..., list[tuple[int, str]]]


@pytest.fixture(scope="module")
def ask(tmp_path_factory: pytest.TempPathFactory) -> Ask:
    """Runs commands of the program with the new column, and gives status and words of each."""
    into = tmp_path_factory.mktemp("program")
    ignored = shutil.ignore_patterns("__pycache__")
    shutil.copytree(PROGRAM, into / "classclock", ignore=ignored)
    value = into / "classclock" / "tally" / "scores" / "lane_score.py"
    value.write_text(value.read_text("utf-8") + ITS_VALUE, "utf-8")
    model = into / "classclock" / "records" / "document.py"
    text = model.read_text("utf-8")
    for before, after in (ITS_FIELD, ITS_VERSION):
        assert text.count(before) == 1
        text = text.replace(before, after)
    model.write_text(text, "utf-8")

    def run(*commands: list[str]) -> list[tuple[int, str]]:
        done = subprocess.run(
            [sys.executable, "-c", ASKED, json.dumps(commands)],
            cwd=into,  # the first place in which its modules are looked for
            env={**os.environ, "PYTHONPATH": str(into), "CLASSCLOCK_BOOK": ""},
            capture_output=True,
            text=True,
            check=True,
            timeout=60,
        )
        return [(status, out) for status, out in json.loads(done.stdout)]

    return run


@pytest.fixture
def club(tmp_path: Path) -> Path:
    """Classes of the first version, and some that were saved by this one."""
    folder = tmp_path / "club"
    shutil.copytree(CLUBS["east-shed"], folder, ignore=shutil.ignore_patterns("said"))
    for path in journals(folder)[::2]:
        journal, saved = read_journal(path), saved_for(path)
        assert saved is not None
        started = journal.anchors[0].wall
        write_document(
            saved[0], results_document(replayed(journal), started=started, journal=path.name)
        )
    assert versions(folder) == [VERSION, None, VERSION, None, VERSION]
    return folder


def journals(club: Path) -> list[Path]:
    return sorted((club / "journals").glob("*.jsonl"))


def results(club: Path) -> list[Path]:
    return sorted((club / "results").glob("*.json"))


def versions(club: Path) -> list[int | None]:
    return [json.loads(path.read_bytes()).get("version") for path in results(club)]


def columns(table: Path) -> list[str]:
    return next(csv.reader(table.read_text("utf-8").splitlines()))


def replays(club: Path) -> list[list[str]]:
    return [["replay", str(path)] for path in journals(club)]


def test_classes_before_it_replay_as_saved_and_are_put_into_the_book(ask: Ask, club: Path) -> None:
    *answers, rebuilt = ask(*replays(club), ["book", "rebuild", "--club", str(club)])
    for path, (status, said) in zip(journals(club), answers, strict=True):
        assert (status, said.splitlines()[-1]) == (0, f"The same as saved in {path.stem}.json.")
    assert rebuilt == (0, "The book is made anew from 5 classes.\n")


def test_whoever_asks_is_erased_from_them_and_they_say_no_more_than_before(
    ask: Ask, club: Path
) -> None:
    before = versions(club)
    lanes = [lanes_of(path) for path in results(club)]
    erased, *answers = ask(
        ["book", "erase", "Ilse", "--yes", "--json", "--club", str(club)], *replays(club)
    )
    assert erased[0] == 0
    assert json.loads(erased[1])["damaged"] == []
    assert all(status == 0 and "The same as saved" in said for status, said in answers)
    assert versions(club) == before
    for path, then in zip(results(club), lanes, strict=True):
        assert "Ilse" not in path.read_text("utf-8")
        assert [list(lane) for lane in lanes_of(path)] == [list(lane) for lane in then]
    for table in (club / "results").glob("*.csv"):
        assert columns(table) == list(COLUMNS)
        assert "Ilse" not in table.read_text("utf-8")


def lanes_of(path: Path) -> list[dict[str, Any]]:
    pieces = json.loads(path.read_bytes())["pieces"]
    return [lane for piece in pieces for lane in piece["lanes"]]


def test_a_class_after_it_has_the_column_and_is_refused_by_the_program_before_it(
    ask: Ask, club: Path
) -> None:
    journal, path = journals(club)[-1], results(club)[-1]
    saved, replayed_again = ask(["save", str(journal), str(path)], ["replay", str(journal)])
    assert saved[0] == 0
    assert replayed_again[0] == 0
    assert versions(club)[-1] == VERSION + 1
    lanes = lanes_of(path)
    assert all(list(lane)[: len(COLUMNS) + 1] == [*COLUMNS, NEW] for lane in lanes)
    assert [lane[NEW] for lane in lanes] == [
        min((split for split in lane["splits"] if split is not None), default=None)
        for lane in lanes
    ]
    tables = (club / "results").glob(f"{path.stem}-*.csv")
    assert {tuple(columns(table)) for table in tables} == {(*COLUMNS, NEW)}
    with pytest.raises(LaterResultsError):
        read_results(path)
