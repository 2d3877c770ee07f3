"""`athlete`, as it is typed."""

import json
import stat
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_an_athletes_page_says_how_often_and_how_well(command_says: CommandSays) -> None:
    page = command_says("athlete", "ilse", "--benchmark", "turntable")
    assert "2 classes, the first on 7 January 2020, the last on 14 January 2020" in page
    assert "Turntable    8+3    2020-01-14  as written; 16:00" in page
    assert "Front Squat  3 reps  70 kg  2020-01-07" in page
    assert "o as written" in page
    values = json.loads(command_says("athlete", "Ilse", "--json"))
    assert (values["classes"], len(values["weeks"])) == (2, 12)


def test_a_name_that_nobody_has_is_answered_with_the_nearest(typed: Typed) -> None:
    said = typed("athlete", "Ilsa")
    assert said.status == 2
    assert said.err == "nobody in the book is called Ilsa: did you mean Ilse?\n"


def test_everything_kept_about_somebody_goes_into_a_folder_of_its_own(
    command_says: CommandSays, tmp_path: Path
) -> None:
    into = tmp_path / "for-ilse"
    written = command_says("athlete", "Ilse", "--folder", str(into)).splitlines()
    assert written[0] == str(into / "README.txt")
    assert sorted(written) == sorted(map(str, into.iterdir()))
    assert all(stat.S_IMODE(path.stat().st_mode) == 0o600 for path in into.iterdir())
    assert stat.S_IMODE(into.stat().st_mode) == 0o700
    assert b"Bram" not in b"".join(path.read_bytes() for path in into.iterdir())


def test_a_folder_that_holds_something_is_refused(typed: Typed, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("mine", "utf-8")
    said = typed("athlete", "Ilse", "--folder", str(tmp_path / "mine"))
    assert said.status == 2
    assert said.err == (
        f"{tmp_path / 'mine'} isn't empty: name a new folder, so that it holds theirs alone\n"
    )
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["letter.txt"]
    said = typed("athlete", "Ilse", "--folder", str(tmp_path / "mine" / "letter.txt"))
    assert (said.status, said.err.endswith("is a file: name a new folder\n")) == (2, True)


def test_an_empty_folder_is_taken_and_json_says_what_was_written(
    command_says: CommandSays, tmp_path: Path
) -> None:
    (tmp_path / "empty").mkdir()
    values = json.loads(
        command_says("athlete", "Bram", "--folder", str(tmp_path / "empty"), "--json")
    )
    assert str(tmp_path / "empty" / "person.json") in values["written"]
    assert values["unread"] == []


def test_what_cant_be_read_is_named_and_the_rest_is_handed_over(
    typed: Typed, depot: Any, tmp_path: Path
) -> None:
    (depot.folder / "journals").mkdir()
    spoiled = depot.folder / "journals" / "2020-01-07-1830-depot.jsonl"
    spoiled.write_text('{"event": "?", "people": ["ilse"]}\n', "utf-8")
    said = typed("athlete", "Ilse", "--folder", str(tmp_path / "out"))
    assert said.status == 1
    assert said.err == f"look yourself, it may tell of Ilse and can't be read: {spoiled}\n"
    assert (tmp_path / "out" / "results.csv").exists()
