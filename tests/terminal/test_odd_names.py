"""Names and plans that try to be more than text."""

import json
import re
import unicodedata
from pathlib import Path
from typing import Any

import pytest

from tests.depot_classes import DepotClasses

NAMES = (
    "[red]Ilse[/red]",
    "../../Piet",
    "Tuva 🚋🏽",
    "=cmd()Uri",
    "نور",
)
PLAN = """
title = "../../[bold]Yard[/bold]"
[[segment]]
name = "[red]Sandbox[/red]"
format = "countdown"
time = "1:00"
count_in = "0:03"
score = "reps"
lines = ["[blink]lines[/blink]", "نور 🚋"]
caution = ["[link=file:///etc/passwd]caution[/link]"]
"""


STEERING = "Bram\x1b[2J\x1b]0;owned\x07\u202e"
SHOWN = r"Bram\x1b[2J\x1b]0;owned\x07\u202e"
OURS = re.compile(rb"\x1b\[[<=>?]?[0-9;]*\$?[A-Za-z]|\x1b\]22;default\x07")
"""ECMA-48's control sequences, and the pointer's shape that Textual sets; of no other kind."""


def only_ours(painted: bytes) -> None:
    whole = re.sub(rb"\x1b\[[^A-Za-z]*$", b"", painted)  # it may be painting still
    rest = OURS.sub(b"", whole).decode("utf-8", "ignore")
    steering = [
        rest[max(0, at - 30) : at + 30]
        for at, sign in enumerate(rest)
        if unicodedata.category(sign) == "Cc" and sign not in "\r\n"
    ]
    assert steering == []
    assert "\u202e" not in rest


def files(folder: Path) -> set[Path]:
    return {path.relative_to(folder) for path in folder.rglob("*") if path.is_file()}


@pytest.mark.real_time
def test_odd_names_and_plans_are_plain_text_and_touch_nothing_else(club: Any) -> None:
    plan = club.plan(text=PLAN, name="yard")
    before = files(club.folder)
    wall = club.start("run", plan, "--athletes", ",".join(NAMES), "--speed", "10")
    wall.shows("enter starts", "[bold]Yard[/bold]")
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")
    wall.type("r")  # the first letter of the name
    wall.says("[red]Ilse[/red], 1 rep")
    wall.shows("enter goes on", within=30)  # what is saved stands there in large letters
    only_ours(wall.painted)
    new = files(club.folder) - before
    assert new
    depot = club.home.relative_to(club.folder)
    assert {path.parts[0] for path in new} == {depot.name}
    assert {path.parts[1] for path in new} == {"journals", "results", "spare-room"}
    assert not [path for path in new if ".." in path.name]
    (table,) = (club.home / "results").glob("*.csv")
    assert "\n=cmd" not in table.read_text("utf-8")
    assert ",=cmd" not in table.read_text("utf-8")


@pytest.mark.real_time
@pytest.mark.parametrize(("columns", "rows"), [(120, 36), (60, 18)])
def test_a_name_that_an_old_file_holds_is_shown_as_an_escape_from_first_to_last(
    columns: int, rows: int, club: Any
) -> None:
    depot = DepotClasses(club.home)
    depot.held("2026-11-03", depot.turntable(depot.rounds(STEERING, 6)))
    plan = club.plan(text=PLAN.replace('"1:00"', '"0:20"'), name="yard")
    wall = club.start("run", plan, "--speed", "5", columns=columns, rows=rows)
    wall.shows("Bram")
    wall.type("Bram\r")
    wall.type("\x13")
    wall.shows("segment 1 of 1")  # in the narrow window what is wrong has the foot
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")
    wall.type("b")
    wall.says(SHOWN[:14])  # there is no room for more in the narrow window
    wall.shows("provisional", within=30)
    wall.type("5b")
    wall.says(SHOWN[:14])
    wall.type("\x11")
    wall.shows("enter")
    wall.type("\r")
    wall.status()
    only_ours(wall.painted)
    (table,) = (club.home / "results").glob("*yard*.csv")
    assert SHOWN in table.read_text("utf-8")
    assert "\x1b" not in table.read_text("utf-8")
    (kept,) = (club.home / "results").glob("*yard*.json")
    assert json.loads(kept.read_text("utf-8"))["people"][0]["name"] == STEERING


@pytest.mark.real_time
def test_a_name_that_would_steer_the_terminal_is_refused_in_plain_text(club: Any) -> None:
    refused = club.start("run", club.plan(), "--athletes", f"{STEERING}, Bo")
    assert refused.status() == 2
    assert f"{SHOWN}\" holds a character that can't be shown" in refused.painted.decode()
    only_ours(refused.painted)
    assert not club.home.exists()


@pytest.mark.real_time
def test_a_plan_that_would_steer_the_terminal_is_refused_in_plain_text(club: Any) -> None:
    text = PLAN.replace("[red]Sandbox", "\\u001b]52;c;b3duZWQ=\\u0007Sand\\u202ebox")
    plan = club.plan(text=text, name="yard")
    wall = club.start("run", plan, "--athletes", "Ilse")
    assert wall.status() == 1
    assert b"holds a character that can't be shown" in wall.painted
    assert b"\x1b" not in wall.painted
    assert not club.home.exists()
