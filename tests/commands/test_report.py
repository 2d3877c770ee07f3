"""`report`, as it is typed; what stands in one is tested where it is made."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_the_latest_class_is_reported_unless_another_is_named(
    command_says: CommandSays, depot: Any
) -> None:
    earlier = next((depot.folder / "results").glob("2020-01-07*.json"))
    told = command_says("report")
    assert "14 January 2020" in told
    assert command_says("report", "--text") == told
    assert "7 January 2020" in command_says("report", str(earlier))


def test_a_page_that_was_written_is_named_or_its_class_is_told(
    command_says: CommandSays, tmp_path: Path
) -> None:
    page = tmp_path / "report.html"
    assert command_says("report", "--html", str(page)) == f"{page}\n"
    assert page.read_text("utf-8").startswith("<!DOCTYPE html>")
    assert "Turntable" in command_says("report", "--html", str(page), "--text")
    assert json.loads(command_says("report", "--html", str(page), "--json"))["title"]


def test_a_page_that_cant_be_written_is_said_without_a_traceback(
    typed: Typed, tmp_path: Path
) -> None:
    (tmp_path / "file").touch()
    page = tmp_path / "file" / "report.html"
    for command in (["report"], ["chart"], ["athlete", "Ilse"]):
        said = typed(*command, "--html", str(page))
        assert said.status == 1
        assert said.err == f"{tmp_path / 'file'}: File exists\n"


@pytest.mark.parametrize("text", ["[1]", "{}", "no json"])
def test_a_file_that_holds_no_results_is_refused(typed: Typed, tmp_path: Path, text: str) -> None:
    path = tmp_path / "notes.json"
    path.write_text(text, "utf-8")
    said = typed("report", str(path))
    assert said.status == 1
    assert said.err == (
        f"{path}: this is no results file: name a .json from the club's results folder\n"
    )
