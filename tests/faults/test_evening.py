"""An evening that departs from its plan before every piece, in a real terminal, killed twice.

Somebody leaves and returns, two who share a bar change places, a load and an option are changed,
a piece is shortened, a visitor gets a name, a note is taken. Then what the files hold, and the
book.
"""

import csv
from typing import Any

import pytest

from tests.signals import KILL

PLAN = """
title = "Depot evening"

[[segment]]
name = "Warm-up"
format = "countdown"
time = "2:00"
count_in = "0:03"

[[segment]]
name = "Front squat"
format = "interval"
repeat = 3
steps = [{ work = "1:00", label = "3 reps" }]
count_in = "0:03"
lift = "front squat"
sets = [{ reps = 3, load = "40 kg" }, { reps = 3, load = "50 kg" }, { reps = 3, load = "60 kg" }]
score = "load"

[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"
count_in = "0:03"

  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box", { name = "step-up", reps = 4 }]

  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12

[[segment]]
name = "Last tram"
format = "capped-for-time"
cap = "8:00"
rounds = 3
count_in = "0:03"

  [[segment.station]]
  movement = "bodyweight squat"
  reps = 10
"""
CLUB = """
class_length = "25:00"

[equipment]
bar = 3
"""
SHARE, PEOPLE, FIT, NOTE, LEAVE = "\x14", "\x10", "\x06", "\x05", "\x11"
SPEED = 20
NAMES = ("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri")
LIFTED = {
    "Noor": "45 kg",
    "Tuva": "42.5 kg",
    "Uri": "40 kg",
    "Bram": "40 kg",
    "Ilse": "40 kg",
    "Odell": "none made",
}
TURNTABLE = {
    "Bram": "2+12",
    "Ilse": "2+5",
    "Noor": "2+0",
    "Uri": "1+9",
    "Odell": "1+9",
    "Piet": "1+3",
    "Tuva": "1+1",
}
HAPPENED = """
    ClassOpened PersonLeft PersonBack SegmentStarted PersonLeft
    SegmentChosen EquipmentShared PartnersSet PartnersSet EquipmentShared LoadChosen
    SegmentStarted Tapped Tapped Tapped Tapped Lifted Settled
    SegmentChosen PersonBack OptionChosen SegmentFitted Noted SegmentStarted
    Tapped Tapped Tapped Tapped Tapped Tapped Tapped Tapped Tapped Tapped
    Numbered Numbered Numbered Numbered Numbered Numbered Numbered PersonLeft Settled
    SegmentChosen PersonChanged SegmentStarted
    FinishedNow FinishedNow FinishedNow FinishedNow FinishedNow FinishedNow Settled ClassClosed
"""


class Evening:
    """The coach's keys through the whole of it; each waits for what it does to be seen."""

    def __init__(self, club: Any, columns: int, rows: int) -> None:
        self.club, self.size = club, {"columns": columns, "rows": rows}
        club.home.mkdir()
        (club.home / "club.toml").write_text(CLUB, "utf-8")
        plan = club.plan(name="evening", text=PLAN)
        names = ", ".join((*NAMES, "?"))
        self.wall = club.start(
            *("run", plan, "--athletes", names, "--speed", str(SPEED)), **self.size
        )

    def types(self, keys: str, *says: str) -> None:
        self.wall.type(keys)
        for text in says:
            self.wall.says(text, within=30)

    def happened(self, event: str, count: int = 1) -> None:
        """Wait until the journal has so many of these."""
        self.wall.waits_for(
            lambda: [one["event"] for one in self.club.events()].count(event) == count, event, 40
        )

    def starts(self, count: int) -> None:
        self.wall.strikes("\r")
        self.happened("SegmentStarted", count)
        self.wall.waits_for(self.club.has_gone, "go")

    def ended(self) -> None:
        """Wait for a piece's end and its late calls: enter means little before they are over."""
        self.wall.shows("enter goes on", within=60)  # what is saved may stand in large letters
        self.wall.passes(1)

    def settles(self, count: int) -> None:
        """Settle the piece and so go on."""
        while [one["event"] for one in self.club.events()].count("Settled") < count:
            self.wall.strikes("\r")
            self.wall.passes(0.5)

    def killed(self) -> None:
        self.wall.signal(KILL)
        self.wall.status()
        self.wall = self.club.start("resume", **self.size)
        self.wall.shows("rejoined", within=30)


def warm_up(evening: Evening) -> None:
    evening.wall.shows("escape: later", within=40)
    evening.wall.strikes("\x1b")
    evening.wall.shows("enter starts", within=30)
    evening.types(".b", "Bram has left")
    evening.types("-b", "Bram is back")
    evening.starts(1)
    evening.wall.shows("Front squat", "enter goes on", within=40)
    evening.types(".p", "Piet has left")


def front_squat(evening: Evening) -> None:
    evening.wall.strikes("\r")
    evening.wall.shows("enter starts")
    evening.types(SHARE)
    evening.wall.shows("fewest plate")
    evening.types("1", "they share a bar turn by turn")
    evening.types(">iu")
    evening.happened("PartnersSet", 2)
    evening.wall.strikes("\x1b")
    evening.wall.drops("another; escape")
    evening.types("45n", "Noor, set 1: 45 kg")
    evening.starts(2)
    for key in "iunb":
        evening.wall.strikes(key)
    evening.happened("Tapped", 4)
    evening.killed()
    evening.types("42.5t", "Tuva")
    evening.ended()


def turntable(evening: Evening) -> None:
    evening.settles(1)
    evening.wall.shows("enter starts", within=30)
    evening.types("-p", "Piet is back")
    evening.types(":t2", "Tuva: step-up")
    evening.types(FIT)
    evening.wall.shows("9:00 of 16:00 planned")
    evening.types("1")
    evening.happened("SegmentFitted")
    evening.wall.strikes("\x1b")
    evening.types(NOTE)
    evening.wall.shows("a note about the class")
    evening.types("left knee, taped")
    evening.types("\r", "noted in the class's journal")
    evening.starts(3)
    for key in "ibnptuv":
        evening.wall.strikes(key)
    evening.happened("Tapped", 11)
    evening.killed()
    for key in "ibn":
        evening.wall.strikes(key)
    evening.happened("Tapped", 14)
    evening.ended()
    evening.types("5")
    evening.types("\r", "Ilse, 2+5")
    for keys, said in (("12b", "Bram, 2+12"), ("0n", "Noor, 2+0"), ("3p", "Piet, 1+3")):
        evening.types(keys, said)
    for keys, said in (("1t", "Tuva, 1+1"), ("9u", "Uri, 1+9"), ("9v", "visitor 1, 1+9")):
        evening.types(keys, said)
    evening.types(".u")
    evening.wall.shows("2: leaves now")
    evening.types("2", "Uri has left")
    evening.settles(2)


def last_tram(evening: Evening) -> None:
    evening.wall.shows("segment 4 of 4", "enter starts", within=30)
    evening.types(PEOPLE)
    evening.wall.shows("6 here, 1 has left")
    evening.types("v")
    evening.types("\x05")
    evening.wall.shows("visitor 1")
    evening.types("Odell")
    evening.types("\r", "visitor 1 is Odell")
    evening.wall.strikes("\x1b")
    evening.starts(4)
    for key in "ibnptv":
        evening.types(f"*{key}")
    evening.happened("FinishedNow", 6)
    evening.ended()
    evening.types("*")
    evening.wall.shows("* enter: all")
    evening.settles(3)
    evening.wall.shows("settled", within=30)
    evening.types(LEAVE)
    assert evening.wall.status() == 0
    evening.wall.is_clean()


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
@pytest.mark.parametrize(("columns", "rows"), [(60, 18), (120, 36)])
def test_an_evening_that_departs_from_its_plan_and_is_killed_twice_holds_all_of_it(
    club: Any, columns: int, rows: int
) -> None:
    evening = Evening(club, columns, rows)
    warm_up(evening)
    front_squat(evening)
    turntable(evening)
    last_tram(evening)

    assert [one["event"] for one in club.events()] == HAPPENED.split()
    (note,) = (one for one in club.events() if one["event"] == "Noted")
    assert (note["text"], note.get("person_id")) == ("left knee, taped", None)
    results = club.results()
    assert [person["name"] for person in results["people"]] == [*NAMES, "Odell"]
    assert {one["name"]: one.get("left_after") for one in results["people"]} == {
        **dict.fromkeys([*NAMES, "Odell"]),
        "Uri": "Turntable",
    }
    assert [piece["status"] for piece in results["pieces"]] == ["settled"] * 3
    lift = results["pieces"][0]["lanes"]
    assert {lane["athlete"]: lane["score"] for lane in lift} == LIFTED
    assert "Piet" not in LIFTED, "who had left has no lane, and no absence"
    assert scores(club, "turntable") == TURNTABLE
    assert {row["note"] for row in rows_of(club, "turntable")} == {"9:00 of 16:00 planned"}
    assert {row["athlete"]: row["modification"] for row in rows_of(club, "turntable")} == {
        **dict.fromkeys(TURNTABLE, ""),
        "Tuva": "step-up",
    }
    assert set(scores(club, "last-tram")) == {*NAMES, "Odell"} - {"Uri"}

    chart = said(club, "chart")
    for name, lifted in (("Bram", "40 kg"), ("Noor", "45 kg"), ("Tuva", "42.5 kg")):
        assert f"{name:<7}{lifted}" in chart
    assert "visitor" not in chart
    assert "Turntable  1+9" in said(club, "athlete", "Odell"), "named in the class, and in the book"
    assert "left knee, taped" in said(club, "notes")
    (journal,) = (club.home / "journals").glob("[!.]*.jsonl")
    assert "The same as saved" in said(club, "replay", str(journal))


def rows_of(club: Any, piece: str) -> list[dict[str, str]]:
    (table,) = (club.home / "results").glob(f"*-{piece}.csv")
    with table.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def scores(club: Any, piece: str) -> dict[str, str]:
    return {row["athlete"]: row["score"] for row in rows_of(club, piece)}


def said(club: Any, *command: str) -> str:
    """What a command of the club answers."""
    terminal = club.start(*command)
    assert terminal.status() == 0
    return str(terminal.text)
