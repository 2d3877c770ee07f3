"""`check`, as it is typed."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_plates")


def test_the_wall_is_judged_by_who_comes_unless_the_lanes_are_named(
    command_says: CommandSays,
) -> None:
    asked = ("check", "turntable")
    for more, lanes in (((), 8), (("--athletes", "14"), 14), (("--athletes", "60"), 26)):
        assert f"with {lanes} lanes" in command_says(*asked, *more)
    assert "with 4 lanes" in command_says(*asked, "--athletes", "14", "--lanes", "4")


def test_the_wall_is_judged_by_the_letters_that_the_club_chose(
    command_says: CommandSays, tmp_path: Path
) -> None:
    def said(letters: str) -> str:
        (tmp_path / "club.toml").write_text(f'[tv]\nletters = "{letters}"\n')
        return command_says("check", "turntable", "--club", str(tmp_path))

    assert said("halves") != said("sextants")


def test_a_piece_without_stations_is_told_to_get_one(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "bare.toml"
    path.write_text(
        'title = "Bare"\n[[segment]]\nname = "Headway"\nformat = "rounds-in-time"\ntime = "9:00"\n'
    )
    said = typed("check", str(path))
    assert said.status == 0
    assert "Add what is done in a round" in said.out + said.err


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--lanes", "27"), "write how many lanes there are, 1 to 26"),
        (("--window", "59x36"), "write columns and rows, 60x18 or more, as in 120x36"),
        (("--athletes", "201"), "write how many come, 1 to 200, or their names"),
    ],
)
def test_what_cant_be_so_is_said_with_what_can(
    typed: Typed, more: tuple[str, ...], words: str
) -> None:
    said = typed("check", "turntable", *more)
    assert said.status == 2
    assert words in said.err


LIFTS = """
title = "Depot"
[[segment]]
name = "Pull"
format = "interval"
repeat = 1
steps = [{ work = "2:00" }]
lift = "deadlift"
sets = [{ reps = 1, load = "140 kg" }]
score = "load"
[[segment]]
name = "Squat"
format = "interval"
repeat = 1
steps = [{ work = "2:00" }]
lift = "front squat"
sets = [{ reps = 3, percent = 80 }]
score = "load"
"""


def test_whoever_has_no_record_for_a_planned_load_is_named(
    command_says: CommandSays, depot: Any, tmp_path: Path
) -> None:
    depot.held("2026-02-10", depot.squats(depot.lifted("Ilse", "80 kg")))
    plan = tmp_path / "lifts.toml"
    plan.write_text(LIFTS)
    asked = ("check", str(plan), "--club", str(depot.folder))
    said = command_says(*asked, "--athletes", "Ilse, Bram")
    assert "  Pull, Ilse, Bram: no record: choose the load together\n" in said
    assert "  Squat, Bram: no record: choose the load together\n" in said
    (document,) = json.loads(command_says(*asked, "--athletes", "Ilse, Bram", "--json"))
    assert document["loads"][-1] == {
        "segment": "Squat",
        "athlete": "Bram",
        "text": "no record: choose the load together",
    }
    assert "no record" not in command_says(*asked, "--athletes", "2"), "nobody is named"
