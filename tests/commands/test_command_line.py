from pathlib import Path

import pytest

from classclock.commands.arguments import parser
from classclock.commands.command_line import main


@pytest.mark.parametrize(
    "line",
    [
        ["--club", "here", "check", "turntable"],
        ["check", "turntable", "--club", "here"],
        ["--club", "here", "run", "turntable"],
        ["resume", "--club", "here"],
        ["--club", "here"],
    ],
)
def test_the_clubs_folder_can_be_named_before_the_command_or_behind_it(line: list[str]) -> None:
    assert parser().parse_args(line).club == "here"


def test_without_a_folder_named_the_usual_one_serves() -> None:
    assert parser().parse_args(["results"]).club is None


@pytest.mark.parametrize(
    "line",
    [["--speed"], ["run"], ["run", "turntable", "--speed", "0"], ["dance"], ["check"]],
)
def test_bad_use_ends_with_status_2(line: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(line)
    assert ended.value.code == 2
    assert "Traceback" not in capsys.readouterr().err


def test_a_faulty_club_file_is_said_and_nothing_is_run(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "club.toml").write_text('unit = "stone"\nvolum = 3\n', "utf-8")
    assert main(["check", "turntable", "--club", str(tmp_path)]) == 1
    said = capsys.readouterr().err
    assert "club.toml:1" in said
    assert "club.toml:2" in said


def test_the_wall_is_judged_by_who_comes_unless_the_lanes_are_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ["check", "turntable", "--club", str(tmp_path)]
    for more, lanes in (([], 8), (["--athletes", "14"], 14), (["--athletes", "60"], 26)):
        assert main([*asked, *more]) == 0
        assert f"with {lanes} lanes" in capsys.readouterr().out
    assert main([*asked, "--athletes", "14", "--lanes", "4"]) == 0
    assert "with 4 lanes" in capsys.readouterr().out


def test_a_piece_without_stations_is_told_to_get_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "bare.toml"
    path.write_text(
        'title = "Bare"\n[[segment]]\nname = "Headway"\nformat = "rounds-in-time"\ntime = "9:00"\n'
    )
    assert main(["check", str(path), "--club", str(tmp_path)]) == 0
    said = capsys.readouterr()
    assert "Add what is done in a round" in said.out + said.err
