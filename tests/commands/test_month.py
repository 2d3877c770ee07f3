"""`month`, as it is typed; what stands on the page is tested where it is made."""

import json
from pathlib import Path

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_a_month_is_told_for_people_and_for_programs(command_says: CommandSays) -> None:
    lines = command_says("month", "2020-01").splitlines()
    assert lines[:2] == ["January 2020", "2 classes; 2 people came 3 times"]
    assert "  Ilse  Turntable 8+3  18 reps more than 7+12 of 7 January 2020; on 14 January" in lines
    assert lines[-3:] == ["Who came", "  Ilse  2 times", "  Bram  once"]
    values = json.loads(command_says("month", "2020-01", "--json"))
    assert values["came"][0] == {"athlete": "ilse", "name": "Ilse", "times": 2}
    (best,) = values["news"]["new_bests"]
    assert (best["score"], best["by"]) == ("8+3", "18 reps")
    assert best["before"] == {"score": "7+12", "day": "2020-01-07"}


def test_the_running_month_is_told_where_none_is_named(command_says: CommandSays) -> None:
    title, sums, *_ = command_says("month").splitlines()
    assert title.endswith(" so far")
    assert sums == "0 classes"
    values = json.loads(command_says("month", "--json"))
    kinds = ("new_bests", "goals_reached", "first_times", "first_classes")
    assert values["news"] == {kind: [] for kind in kinds}


def test_a_month_that_isnt_one_is_answered_with_how_to_write_it(typed: Typed) -> None:
    said = typed("month", "2020-13")
    assert said.status == 2
    assert said.err.endswith('"2020-13" is no month: write the year and the month, as in 2026-11\n')


def test_who_is_kept_off_the_wall_is_left_out_and_that_is_said_aside(
    typed: Typed, command_says: CommandSays
) -> None:
    command_says("book", "mark", "Ilse", "off-the-wall")
    said = typed("month", "2020-01")
    assert "Ilse" not in said.out
    assert said.err == (
        '1 person is kept off the wall, and so off this page: --with "NAME" puts them on it\n'
    )
    said = typed("month", "2020-01", "--with", "ilse")
    assert "Ilse" in said.out
    assert said.err == ""
    assert typed("month", "--with", "Ilsa").status == 2


def test_a_page_that_was_written_is_named(command_says: CommandSays, tmp_path: Path) -> None:
    page = tmp_path / "month.html"
    assert command_says("month", "2020-01", "--html", str(page)) == f"{page}\n"
    assert page.read_text("utf-8").startswith("<!DOCTYPE html>")
    assert "January 2020" in command_says("month", "2020-01", "--html", str(page), "--text")
