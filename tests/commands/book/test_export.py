"""`book export`, as it is typed."""

import csv
import json
import stat
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import CommandSays

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_everything_comes_out_as_tables_and_json_for_this_account_alone(
    depot: Any, command_says: CommandSays, tmp_path: Path
) -> None:
    depot.held("2020-01-21", depot.turntable(depot.rounds("=cmd()", 5, members=["x"])))
    command_says("book", "export", str(tmp_path / "out"))
    text = (tmp_path / "out" / "results.csv").read_text("utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    assert {row["name"] for row in rows} == {"Ilse", "Bram", "'=cmd()"}
    assert all(stat.S_IMODE(path.stat().st_mode) == 0o600 for path in (tmp_path / "out").iterdir())
    assert stat.S_IMODE((tmp_path / "out").stat().st_mode) == 0o700
    exported = json.loads((tmp_path / "out" / "book.json").read_text("utf-8"))
    assert len(exported["results"]) == 5


def test_what_was_exported_can_be_taken_in_by_another_club(
    command_says: CommandSays, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    command_says("book", "export", str(tmp_path / "out"))
    before = json.loads(command_says("chart", "--json"))["rows"]
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path / "annexe"))
    command_says("book", "import", str(tmp_path / "out" / "results.csv"))
    after = json.loads(command_says("chart", "--json"))["rows"]
    assert [(row["name"], row["bests"]) for row in after] == [
        (row["name"], row["bests"]) for row in before
    ]
