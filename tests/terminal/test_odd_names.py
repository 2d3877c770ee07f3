"""Names and plans that try to be more than text."""

from pathlib import Path
from typing import Any

import pytest

NAMES = (
    "[red]Ilse[/red]",
    "Bram\x1b[2J\x1b]0;owned\x07",
    "\u202eNoor",
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
    wall.shows("provisional, saved as", within=30)
    for wrong in (b"\x1b]0;owned", b"\x1b[2J\x1b]0", "\u202e".encode()):
        assert wrong not in wall.painted
    new = files(club.folder) - before
    assert new
    depot = club.home.relative_to(club.folder)
    assert {path.parts[0] for path in new} == {depot.name}
    assert {path.parts[1] for path in new} == {"journals", "results"}
    assert not [path for path in new if ".." in path.name]
    (table,) = (club.home / "results").glob("*.csv")
    assert "\n=cmd" not in table.read_text("utf-8")
    assert ",=cmd" not in table.read_text("utf-8")


@pytest.mark.real_time
def test_a_plan_that_would_steer_the_terminal_is_refused_in_plain_text(club: Any) -> None:
    text = PLAN.replace("[red]Sandbox", "\\u001b]52;c;b3duZWQ=\\u0007Sand\\u202ebox")
    plan = club.plan(text=text, name="yard")
    wall = club.start("run", plan, "--athletes", "Ilse")
    assert wall.status() == 1
    assert b"holds a character that can't be shown" in wall.painted
    assert b"\x1b" not in wall.painted
    assert not club.home.exists()
