"""`effort`, as it is typed; and the athlete's page, that tells of it."""

import json
import re
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from classclock.report.effort_words import NO_FORECAST
from tests.commands.typed import CommandSays, Typed

MONDAY = date(2026, 10, 5)
TODAY = datetime.fromisoformat("2026-11-08T20:00:00+01:00")
"""A Sunday: five weeks are over."""


@pytest.fixture(autouse=True)
def _five_weeks(depot: Any, storage: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ilse came twice a week for an hour each; in the fifth it was twice as hard."""
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(depot.folder))
    monkeypatch.setenv("COLUMNS", "100")
    for module in ("athlete", "effort"):
        monkeypatch.setattr(f"classclock.commands.{module}.local_now", lambda: TODAY)
    for number in range(5):
        for day in (0, 2):
            on = (MONDAY + timedelta(weeks=number, days=day)).isoformat()
            effort = 8 if number == 4 else 4
            people = [
                {"id": "ilse", "name": "Ilse", "key": "i", "effort": effort, "here_s": 3_600},
                {"id": "bram", "name": "Bram", "key": "b", "here_s": 3_600},
            ]
            lanes = (depot.rounds("Ilse", 7), depot.rounds("Bram", 6))
            depot.held(on, depot.turntable(*lanes), people=people)


def newest(command_says: CommandSays, who: str) -> dict[str, Any]:
    week: dict[str, Any] = json.loads(command_says("athlete", who, "--json"))["weeks"][0]
    return week


def test_the_weeks_are_told_the_newest_first(command_says: CommandSays) -> None:
    weeks = json.loads(command_says("athlete", "Ilse", "--json"))["weeks"]
    assert [week["monday"] for week in weeks[:2]] == ["2026-11-02", "2026-10-26"]
    assert [week["effort_minutes"] for week in weeks] == [960, *[480] * 4, *[0] * 7]
    # Two equal days of seven: the mean is 2/7 of one, the squares (2 x 25 + 5 x 4) / 49 over 6.
    assert weeks[0]["monotony"] == pytest.approx(2 / 7 / (70 / 49 / 6) ** 0.5)
    assert weeks[0]["strain"] == pytest.approx(960 * weeks[0]["monotony"])
    assert {"monday", "classes", "effort_minutes", "monotony", "strain"} == weeks[0].keys()
    empty = weeks[-1]
    assert (empty["classes"], empty["monotony"], empty["strain"]) == (0, None, None)


def test_who_said_nothing_has_no_sum(command_says: CommandSays) -> None:
    week = newest(command_says, "Bram")
    assert (week["classes"], week["effort_minutes"], week["monotony"]) == (2, None, None)
    assert "How hard it was" not in command_says("athlete", "Bram")


def test_the_page_has_bars_sums_and_says_that_they_are_no_forecast(
    command_says: CommandSays,
) -> None:
    page = command_says("athlete", "Ilse")
    assert re.search(r"^  05 Oct  ▄·▄····    480      0\.59     281$", page, re.MULTILINE)
    assert re.search(r"^  02 Nov  █·█····    960      0\.59     562$", page, re.MULTILINE)
    words = " ".join(page.split())
    assert "The week of 02 Nov was far harder than each of their 4 before it: ask them" in words
    assert NO_FORECAST in words


def test_the_page_that_is_handed_out_has_the_numbers_and_points_nothing_out(
    command_says: CommandSays, tmp_path: Path
) -> None:
    command_says("athlete", "Ilse", "--html", str(tmp_path / "a.html"))
    page = (tmp_path / "a.html").read_text("utf-8")
    assert "<td>960</td><td>0.59</td><td>562</td>" in page
    assert NO_FORECAST in page
    assert "far harder" not in page


def test_a_class_is_put_right_and_taken_back(command_says: CommandSays) -> None:
    said = command_says("effort", "Ilse", "6")
    assert said.startswith("Ilse, Depot, 2026-11-04, 4 November 2026: 6; classclock book undo")
    assert newest(command_says, "Ilse")["effort_minutes"] == 480 + 360
    assert command_says("effort", "ilse").splitlines()[0].endswith("6 of 10, 360 effort minutes")
    assert "4 of 10" in command_says("effort", "Ilse", "--day", "2026-10-05")
    assert "how hard the class of 2026-11-04 was for Ilse: 6" in command_says("book", "changes")
    command_says("book", "undo")
    assert newest(command_says, "Ilse")["effort_minutes"] == 960


def test_it_is_given_later_for_the_class_of_a_day(command_says: CommandSays) -> None:
    for day in ("2026-11-02", "2026-11-04"):
        command_says("effort", "Bram", "5", "--day", day)
    assert newest(command_says, "Bram")["effort_minutes"] == 600
    command_says("book", "rebuild")
    assert newest(command_says, "Bram")["effort_minutes"] == 600
    command_says("effort", "Bram", "--drop", "--day", "2026-11-02", "--json")
    assert newest(command_says, "Bram")["effort_minutes"] is None


def test_who_is_merged_keeps_it(command_says: CommandSays) -> None:
    command_says("effort", "Bram", "5")
    command_says("book", "merge", "Bram", "Ilse")
    listed = json.loads(command_says("effort", "Ilse", "--json"))
    assert len(listed) == 10
    assert {one["day"] for one in listed} >= {"2026-11-02", "2026-11-04"}


def test_who_is_erased_leaves_no_effort_behind(command_says: CommandSays, depot: Any) -> None:
    command_says("effort", "Bram", "5")
    command_says("book", "erase", "Bram", "--yes")
    assert '"effort"' not in (depot.folder / "changes.jsonl").read_text("utf-8")
    assert json.loads(command_says("effort", "Ilse", "--json"))[0]["effort"] == 8


def test_all_of_it_goes_to_another_club(
    command_says: CommandSays, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    command_says("effort", "Bram", "5")
    before = command_says("athlete", "Ilse"), command_says("effort", "Bram", "--day", "2026-11-04")
    command_says("book", "export", str(tmp_path / "out"))
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path / "annexe"))
    command_says("book", "import", str(tmp_path / "out"))
    after = command_says("athlete", "Ilse"), command_says("effort", "Bram", "--day", "2026-11-04")
    assert after == (before[0], before[1].replace("Depot, 2026-11-04", "imported"))


def test_whoever_asks_is_handed_it(command_says: CommandSays, tmp_path: Path) -> None:
    command_says("effort", "Ilse", "6")
    command_says("athlete", "Ilse", "--folder", str(tmp_path / "for-ilse"))
    attendance = (tmp_path / "for-ilse" / "attendance.csv").read_text("utf-8").splitlines()
    assert attendance[0] == "name,date,class,came,effort,minutes"
    assert attendance[-1].endswith(",1,6,60")
    changed = (tmp_path / "for-ilse" / "changes.csv").read_text("utf-8")
    assert "the class of 2026-11-04 was 6 of 10" in changed


@pytest.mark.parametrize("number", ["11", "-1", "7.5", "hard", "½", "9" * 5000])
def test_anything_but_nought_to_ten_is_refused(typed: Typed, number: str) -> None:
    said = typed("effort", "Ilse", "--", number)
    assert said.status == 2
    assert "whole number from 0 to 10" in said.err


def test_a_day_without_a_class_is_named(typed: Typed) -> None:
    said = typed("effort", "Ilse", "7", "--day", "2026-10-06")
    assert (said.status, "in no class here on 6 October 2026" in said.err) == (2, True)
    assert typed("effort", "Ilse", "7", "--day", "yesterday").status == 2
