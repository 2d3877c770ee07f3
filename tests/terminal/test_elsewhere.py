"""Whole classes as on macOS and as on Windows, in a pty: see `elsewhere/imitation.py`.

What is imitated is what those systems' documents say of the calls that the program makes. Nothing
here has run on either.
"""

import os
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.signals import HANG_UP, KILL

ROOT = Path(__file__).parents[2]
SYSTEMS = ("macos", "windows")
BREAK = 21
"""SIGBREAK, as which Windows tells that a window is closed."""
Start = Callable[..., Any]


@pytest.fixture
def told(tmp_path: Path) -> Callable[[], Counter[str]]:
    """What the imitated system was asked for, and how often."""
    return lambda: Counter((tmp_path / "told").read_text("utf-8").splitlines())


@pytest.fixture
def start_on(club: Any, tmp_path: Path) -> Start:
    """Start the program as on a system."""
    inherited = os.environ.get("PYTHONPATH", "").split(os.pathsep)
    paths = (str(ROOT / "tests" / "terminal" / "elsewhere"), str(ROOT), *filter(None, inherited))

    def start(system: str, *arguments: str) -> Any:
        return club.start(
            *arguments,
            PYTHONPATH=os.pathsep.join(paths),
            CLASSCLOCK_TEST_SYSTEM=system,
            CLASSCLOCK_TEST_TOLD=str(tmp_path / "told"),
        )

    return start


@pytest.mark.real_time
@pytest.mark.parametrize("system", SYSTEMS)
def test_a_whole_class_runs_is_cut_off_rejoined_settled_and_left(
    club: Any, start_on: Start, told: Callable[[], Counter[str]], system: str
) -> None:
    plan = club.plan("5:00")
    run = ("run", plan, "--athletes", "Ilse, Bram, Noor", "--speed", "20")  # 15 seconds
    wall = start_on(system, *run)
    wall.shows("enter starts")
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")
    for key, name in (("n", "Noor"), ("b", "Bram")):
        wall.type(key)
        wall.says(f"{name}, round 1")
    wall.signal(KILL)
    assert wall.status() == -KILL

    wall = start_on(system, "resume")
    wall.says("rejoined")
    (journal,) = (club.home / "journals").glob("*.jsonl")
    anchors = [line["anchor"] for line in club.lines() if "anchor" in line]
    assert [anchor["check_clock"] for anchor in anchors] == [False, False], "the same start"
    other = start_on(system, "resume", str(journal))
    assert other.status() == 1
    assert b"this class is running in another window" in other.painted
    wall.strikes("n")
    wall.says("Noor, round 2")
    wall.shows("provisional, saved as", within=40)

    (results,) = (club.home / "results").glob("*.json")
    with results.open("rb") as reader:  # somebody looks at it in the very moment
        for entry, said in (("4n", "Noor, 2+4"), ("0b", "Bram, 1+0"), ("0i", "Ilse, 0+0")):
            wall.type(entry)
            wall.says(said)
        wall.strikes("\r")
        wall.passes(0.5)
        assert reader.read().endswith(b"}\n"), "whole, as it was when it was opened"
    wall.waits_for(lambda: club.results()["pieces"][-1]["status"] == "settled", "settled results")
    lanes = club.results()["pieces"][-1]["lanes"]
    assert {lane["athlete"]: lane["score"] for lane in lanes} == {
        "Noor": "2+4",
        "Bram": "1+0",
        "Ilse": "0+0",
    }
    wall.type("\x11")
    wall.passes(0.5)
    wall.type("\r")
    assert wall.status() == 0
    wall.is_clean()
    _everything_is_as_it_should_be(club.home)
    _was_asked_as_it_asks(system, told())


def _everything_is_as_it_should_be(home: Path) -> None:
    files = [path for path in home.rglob("*") if path.is_file()]
    assert {path.suffix for path in files} >= {".jsonl", ".json", ".csv"}
    assert not [path.name for path in files if path.suffix == ".lock" and path.stem != "book"]
    for path in files:
        if path.suffix in (".jsonl", ".json"):
            assert b"\r" not in path.read_bytes(), path


def _was_asked_as_it_asks(system: str, told: Counter[str]) -> None:
    if system == "macos":
        assert told["F_FULLFSYNC file"] > 5
        assert told["F_FULLFSYNC folder"] > 1
        assert told["kern.bootsessionuuid"] > 1
        assert not told["fsync file"] + told["fsync folder"]
    else:
        assert told["LockFileEx"] > 1
        assert told["refused while it is open: .json"] > 0, "and tried again"


@pytest.mark.real_time
def test_a_window_closed_as_on_windows_leaves_a_class_that_can_be_rejoined(
    club: Any, start_on: Start
) -> None:
    wall = start_on("windows", "run", club.plan(), "--athletes", "Ilse, Bram, Noor")
    wall.shows("enter starts")
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")
    wall.type("n")
    wall.says("Noor, round 1")
    wall.signal(HANG_UP)
    assert wall.status() == 128 + BREAK
    wall.is_clean()
    assert b"classclock resume goes on with a class" in wall.painted
    assert club.taps() == ["Noor"]
    start_on("windows", "resume").says("rejoined")


@pytest.mark.real_time
@pytest.mark.parametrize("system", SYSTEMS)
def test_a_key_is_as_old_there_as_its_stamp_says(club: Any, start_on: Start, system: str) -> None:
    """A stamp taken for one of another clock would put the tap at go, or an hour away."""
    wall = start_on(system, "run", club.plan(), "--athletes", "Ilse, Bram, Noor")
    wall.shows("enter starts")
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")
    wall.passes(1)
    wall.type("n")
    wall.says("Noor, round 1")
    events = club.events()
    (go,) = (event["go"] for event in events if event["event"] == "SegmentStarted")
    (tapped,) = (event["at"] for event in events if event["event"] == "Tapped")
    assert 900 <= tapped - go < 15_000
