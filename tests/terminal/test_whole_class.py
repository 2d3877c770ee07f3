"""A class as a coach has it: counted, cut off, rejoined, settled, saved."""

import csv
import signal
from typing import Any

import pytest

from tests.signals import HANG_UP, KILL

DOWN = "\x1b[B"
LEAVE = "enter leaves, escape stays"


@pytest.mark.real_time
def test_a_class_killed_in_the_middle_is_rejoined_and_its_results_hold_what_was_called(
    club: Any,
) -> None:
    # First Stop, a sample plan, is 8:00 long: at forty times the speed, 12 seconds.
    names = "Ilse, Bram, Noor, Piet, Tuva, Uri"
    wall = club.start("run", "first-stop", "--athletes", names, "--speed", "40")
    wall.shows("escape: later")  # the plan has loads, and nobody here a record
    wall.type("\x1b")
    wall.shows("enter starts", "segment 1 of 5")
    for number in (2, 3, 4):
        wall.strikes(DOWN)
        wall.shows(f"segment {number} of 5")
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")
    called = ["Noor", "Ilse", "Bram", "Noor", "Piet", "Tuva", "Noor"]
    for number, name in enumerate(called[:5], start=1):
        wall.strikes(name[0].lower())
        wall.waits_for(lambda number=number: club.taps() == called[:number], f"call {number}")
    wall.signal(KILL)
    assert wall.status() == -KILL

    wall = club.start("resume")
    wall.says("rejoined")
    for number, name in enumerate(called[5:], start=6):
        wall.strikes(name[0].lower())
        wall.waits_for(lambda number=number: club.taps() == called[:number], f"call {number}")
    wall.shows("provisional, saved as", within=40)
    wall.type("4n")
    wall.says("Noor, 3+4")
    for name in ("Ilse", "Bram", "Piet", "Tuva", "Uri"):
        wall.type(f"0{name[0].lower()}")
        wall.says(f"{name}, {called.count(name)}+0")
    wall.strikes("\r")
    wall.shows("segment 5 of 5")

    scores = {"Noor": "3+4", "Ilse": "1+0", "Bram": "1+0", "Piet": "1+0", "Tuva": "1+0"}
    scores["Uri"] = "0+0"
    wall.waits_for(lambda: club.results()["pieces"][-1]["status"] == "settled", "settled results")
    piece = club.results()["pieces"][-1]
    assert {lane["athlete"]: lane["score"] for lane in piece["lanes"]} == scores
    assert [lane["rank"] for lane in piece["lanes"]] == [1, 2, 2, 2, 2, 6]
    (table,) = (club.home / "results").glob("*first-stop*.csv")
    with table.open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    assert {row["athlete"]: row["score"] for row in rows} == scores


@pytest.mark.real_time
def test_a_class_is_left_only_when_that_is_confirmed_and_can_be_rejoined(club: Any) -> None:
    wall = club.piece("Ilse, Bram, Noor")
    wall.type("\x11")
    wall.shows(LEAVE, "The clock runs on: classclock resume rejoins this class")
    wall.type("n")
    wall.says("Noor, round 1")
    wall.shows(LEAVE)
    wall.type("\x1b")
    wall.drops(LEAVE)
    wall.type("\x03")
    wall.shows(LEAVE)
    wall.type("\r")
    assert wall.status() == 0
    wall.is_clean()
    assert b"left before its end: classclock resume" in wall.painted
    assert club.taps() == ["Noor"]
    again = club.start("resume")
    again.says("rejoined")


@pytest.mark.real_time
def test_two_classes_run_side_by_side_and_one_class_runs_in_one_window_only(club: Any) -> None:
    club.plan(name="other")
    first = club.piece("Ilse, Bram")
    other = club.start("run", "other.toml", "--athletes", "Noor, Piet")
    other.shows("enter starts")
    journals = sorted((club.home / "journals").glob("*.jsonl"))
    assert len(journals) == 2
    (mine,) = (path for path in journals if "yard" in path.name)
    again = club.start("resume", str(mine))
    assert again.status() == 1
    assert b"this class is running in another window" in again.painted
    assert mine.name.encode() in again.painted
    first.type("i")
    first.says("Ilse, round 1")


@pytest.mark.real_time
def test_no_class_to_rejoin_is_said(club: Any) -> None:
    none = club.start("resume")
    assert none.status() == 1
    assert b"no class was cut off" in none.painted


@pytest.mark.real_time
def test_the_sample_class_lives_in_any_folder(club: Any) -> None:
    wall = club.start("demo", "--speed", "20", TMPDIR=str(club.folder))
    wall.says(", round 1,", within=30)
    wall.says(", round 2,", within=30)
    assert len([*club.folder.glob("classclock-demo-*/journals/*.jsonl")]) == 2
    wall.type("\x11")
    wall.shows(LEAVE)
    wall.type("\r")
    assert wall.status() == 0
    wall.is_clean()
    assert b"nothing of it is kept" in wall.painted
    assert [*club.folder.glob("classclock-demo-*")] == []
    assert not club.home.exists()


@pytest.mark.real_time
@pytest.mark.parametrize("number", [signal.SIGTERM, HANG_UP])
def test_ended_from_outside_the_terminal_is_clean_and_the_class_can_be_rejoined(
    club: Any, number: signal.Signals
) -> None:
    wall = club.piece("Ilse, Bram, Noor")
    wall.type("n")
    wall.says("Noor, round 1")
    wall.signal(number)
    assert wall.status() == 128 + number
    wall.is_clean()
    assert b"classclock resume goes on with a class" in wall.painted
    assert club.taps() == ["Noor"]
    club.start("resume").says("rejoined")


@pytest.mark.real_time
def test_a_closed_window_loses_nothing(club: Any) -> None:
    wall = club.piece("Ilse, Bram, Noor")
    wall.type("n")
    wall.says("Noor, round 1")
    wall.hang_up()
    wall.status()
    assert club.taps() == ["Noor"]
    club.start("resume").says("rejoined")
