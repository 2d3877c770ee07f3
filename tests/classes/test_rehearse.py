import json
from pathlib import Path
from typing import Any

import pytest

from classclock.commands.command_line import main
from classclock.plan.care import STOP
from classclock.records.document import COLUMNS

LANE_FIELDS = {
    "key",
    "members",
    "heat",
    "late",
    "options",
    "own_options",
    "start_station",
    "splits",
    "intervals",
    "attempts",
    "flags",
    "loads",
    "round_reps",
    "option_changed_s",
}


@pytest.fixture
def plan(tmp_path: Path, plan_file: Any) -> str:
    path = tmp_path / "turntable.toml"
    path.write_text(plan_file.text, "utf-8")
    return str(path)


@pytest.fixture
def taps(tmp_path: Path) -> Any:
    def write(*rows: str) -> str:
        path = tmp_path / "taps.csv"
        path.write_text("\n".join(("seconds,keys", *rows)), "utf-8")
        return str(path)

    return write


def rehearse(plan: str, taps: str, capsys: Any, *more: str) -> dict[str, Any]:
    status = main(
        ["rehearse", plan, "--athletes", "Ilse, Bram, Noor", "--taps", taps, "--json", *more]
    )
    assert status == 0
    document: dict[str, Any] = json.loads(capsys.readouterr().out)
    return document


def test_a_rehearsed_piece_has_the_shape_of_a_results_file(
    plan: str, taps: Any, capsys: Any
) -> None:
    document = rehearse(plan, taps("61,i", "62,b", "130,i", "962,12i"), capsys)
    (piece,) = document["pieces"]
    assert (piece["name"], piece["format"], piece["benchmark"], piece["status"]) == (
        "Turntable",
        "rounds-in-time",
        "turntable",
        "settled",
    )
    first = piece["lanes"][0]
    assert set(first) == set(COLUMNS) | LANE_FIELDS
    assert (first["athlete"], first["score"], first["splits"]) == ("Ilse", "2+12", [61, 69])
    assert (first["round_reps"], piece["length_s"]) == ([27, 27], 960)
    stop, own, *of_movements = piece["caution"]
    assert stop == STOP
    assert own == "Step down from the box, don't jump."
    assert "Put the dumbbells down, don't drop them." in of_movements
    assert document["people"][0] == {"id": "Ilse", "name": "Ilse", "key": "i"}


def test_held_time_is_in_the_moments_of_the_taps_file(plan: str, taps: Any, capsys: Any) -> None:
    rows = ("100,<space>", "160,<space>", "180,i")
    document = rehearse(plan, taps(*rows), capsys)
    assert document["pieces"][0]["lanes"][0]["splits"] == [120]


def test_what_was_not_counted_is_said_with_its_line(plan: str, taps: Any, capsys: Any) -> None:
    main(["rehearse", plan, "--athletes", "Ilse", "--taps", taps("60,i", "60.5,i", "70,z")])
    said = capsys.readouterr().err
    assert "taps.csv:3  i: i again within 1.2 s: not counted" in said
    assert "taps.csv:4  z: nobody has the key z" in said


def test_a_faulty_taps_file_is_refused_with_every_finding(
    plan: str, taps: Any, capsys: Any
) -> None:
    assert main(["rehearse", plan, "--athletes", "Ilse", "--taps", taps("x,i", "5,<spac>")]) == 1
    said = capsys.readouterr().err
    assert "taps.csv:2" in said
    assert "taps.csv:3" in said
    assert "Traceback" not in said


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--segment", "Roundabout"], 'no piece is called "Roundabout": there is "Turntable"'),
        (["--athletes", ",".join(f"Tram {n}" for n in range(27))], "at most 26"),
    ],
)
def test_bad_use_is_said_in_one_line(
    plan: str, taps: Any, capsys: Any, arguments: list[str], words: str
) -> None:
    line = ["rehearse", plan, "--athletes", "Ilse", "--taps", taps("60,i"), *arguments]
    assert main(line) == 2
    assert words in capsys.readouterr().err


def test_a_missing_taps_file_is_said_without_a_traceback(plan: str, capsys: Any) -> None:
    assert main(["rehearse", plan, "--athletes", "Ilse", "--taps", "no/such.csv"]) == 1
    assert "no/such.csv" in capsys.readouterr().err


def test_a_rehearsed_lift_takes_its_loads_from_what_each_lifted_before(
    tmp_path: Path, taps: Any, capsys: Any
) -> None:
    plan = tmp_path / "squat.toml"
    plan.write_text(
        'title = "Squat day"\n[[segment]]\nname = "Squat"\nformat = "interval"\nrepeat = 5\n'
        'steps = [{ work = "2:00" }]\nlift = "front squat"\nscore = "load"\n'
        "sets = [{ reps = 1, percent = 65 }, { reps = 1, percent = 70 }, "
        '{ reps = 1, percent = 75 }, { reps = 1, percent = 80 }, { reps = 1, load = "75 kg" }]\n',
        "utf-8",
    )
    who = ["--athletes", "Ilse, Bram, Noor, Piet", "--club", str(tmp_path)]
    main(["rehearse", str(plan), "--taps", taps("30,100i", "40,80b", "50,70n"), "--json", *who])
    (tmp_path / "results").mkdir()
    (tmp_path / "results" / "2026-11-17-1830-squat.json").write_text(
        capsys.readouterr().out, "utf-8"
    )
    rows = ("40,i", "50,n", "60,30p", "160,i", "280,/i", "400,i", "520,i")
    main(["rehearse", str(plan), "--taps", taps(*rows), "--json", *who])
    said = capsys.readouterr()
    lanes = {lane["athlete"]: lane for lane in json.loads(said.out)["pieces"][0]["lanes"]}
    # 65, 70, 75 and 80 % of 100 kg; the set of 75 kg is the plan's own
    assert [(one["load"], one["made"]) for one in lanes["Ilse"]["attempts"]] == [
        ("65 kg", True),
        ("70 kg", True),
        ("75 kg", False),
        ("80 kg", True),
        ("75 kg", True),
    ]
    assert lanes["Ilse"]["score"] == "80 kg"
    # 65 % of 70 kg is 45.5 kg: never above it
    assert lanes["Noor"]["attempts"][0]["load"] == "45 kg"
    assert lanes["Piet"]["score"] == "30 kg"
    assert "before the start, Noor: 75 kg is above the recorded maximum, 70 kg" in said.err


@pytest.mark.parametrize("one", ['load = "140 kg"', "percent = 80"])
def test_a_rehearsal_says_who_has_no_record_for_what_is_planned(
    one: str, taps: Any, capsys: Any, tmp_path: Path
) -> None:
    plan = tmp_path / "pull.toml"
    plan.write_text(
        'title = "Depot"\n[[segment]]\nname = "Pull"\nformat = "countdown"\ntime = "12:00"\n'
        f'lift = "deadlift"\nsets = [{{ reps = 1, {one} }}]\nscore = "load"\n'
    )
    club = ("--club", str(tmp_path / "club"))
    rehearse(str(plan), taps("60,140i"), capsys, *club)
    main(["rehearse", str(plan), "--athletes", "Ilse", "--taps", taps("60,140i"), *club])
    said = capsys.readouterr().err
    assert said == "before the start, Ilse: no record: choose the load together\n"
