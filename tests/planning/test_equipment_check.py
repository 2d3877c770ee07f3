"""`check --athletes`: what is short for so many people, what to do, how long the hour becomes."""

import json
from pathlib import Path

import pytest

from classclock.commands.command_line import main

CLUB = "[equipment]\nboxes = 4\nrowers = 2\ndumbbells = 24\nbars = 12\nracks = 12\n"


@pytest.fixture
def club(tmp_path: Path) -> str:
    (tmp_path / "club.toml").write_text(CLUB, "utf-8")
    return str(tmp_path)


def test_what_is_short_is_said_with_the_ways_to_share_it(
    club: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "turntable", "--club", club, "--athletes", "12"]) == 0
    said = capsys.readouterr().out
    assert "Turntable: 12 boxes are needed at once, 4 are here" in said
    assert "4 at box step-over, 4 at dumbbell push press, 4 at bodyweight squat; no longer" in said
    # Worked: 49:20 with the count-ins, and two more heats of 0:10 + 16:00 with 2:00 before each.
    assert "3 heats of 4; 36:20 longer, 1:25:40 in all with the count-ins, 25:40 over" in said
    assert "Front squat" not in said.partition("For 12 people")[2]


def test_named_people_are_told_where_they_start(
    club: str, capsys: pytest.CaptureFixture[str]
) -> None:
    who = "Ilse, Bram, Noor, Piet, Tuva, Uri"
    assert main(["check", "turntable", "--club", club, "--athletes", who]) == 0
    assert "box step-over: Ilse, Bram\n" in capsys.readouterr().out


def test_the_same_is_there_for_programs(club: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "turntable", "--club", club, "--athletes", "12", "--json"]) == 0
    (plan,) = json.loads(capsys.readouterr().out)
    (segment,) = plan["equipment"]["segments"]
    assert segment["short"] == [{"piece": "box", "needed": 12, "there": 4}]
    assert [(way["extra_seconds"], way["class_seconds"]) for way in segment["ways"]] == [
        (0, 2960),
        (0, 2960),
        (1090, 4050),
        (2180, 5140),
    ]


def test_enough_for_everyone_and_what_nobody_counted_is_said(
    club: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "headway", "--club", club, "--athletes", "2"]) == 0
    said = capsys.readouterr().out
    assert "For 2 people nothing that was counted is short." in said
    assert "Not counted, so taken to be there: kettlebells. Write kettlebells = 4 under" in said


def test_a_club_that_counted_nothing_is_told_how(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "turntable", "--club", str(tmp_path), "--athletes", "1"]) == 0
    said = capsys.readouterr().out
    assert "For 1 person no equipment is counted yet." in said
    assert "Write bars = 4 under [equipment] in club.toml." in said


def test_without_people_nothing_is_said_of_equipment(
    club: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "turntable", "--club", club]) == 0
    assert "people" not in capsys.readouterr().out


@pytest.mark.parametrize("written", ["0", "201", " ", ",", "-3", "12.5", "Ilse, 3"])
def test_a_number_of_people_that_cant_be_is_refused(
    written: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main(["check", "turntable", f"--athletes={written}"])
    assert left.value.code == 2
    assert "write how many come" in capsys.readouterr().err


def test_a_fault_in_the_clubs_movements_is_said_before_anything_else(
    club: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (Path(club) / "movements.toml").write_text('[[movement]]\nname = "turn"\n', "utf-8")
    assert main(["check", "turntable", "--club", club]) == 1
    said = capsys.readouterr()
    assert 'movements.toml:1  turn: "pattern" is missing. Write pattern = "squat".' in said.err
    assert said.out == ""


def test_an_unknown_movement_is_a_hint_that_lets_the_plan_pass(
    club: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "siding.toml"
    plan.write_text(
        'title = "Siding"\n[[segment]]\nname = "Siding"\nformat = "rounds-in-time"\n'
        'time = "8:00"\n[[segment.station]]\nmovement = "box stepover"\nreps = 5\n',
        "utf-8",
    )
    assert main(["check", str(plan), "--club", club]) == 0
    assert 'hint: Siding: "box stepover" has no standard. Write "box step-over"' in (
        capsys.readouterr().err
    )
