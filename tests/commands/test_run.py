"""`run`, as it is typed."""

from pathlib import Path
from typing import Any

import pytest

from classclock.plan.reading.clock_forms import FORMS
from classclock.plan.settings.club import Club
from tests.commands.typed import Typed


@pytest.mark.parametrize("names", ["Ilse, Bram, Ilse", "Ilse,ilse", "Zo\u00eb, Zoe\u0308"])
def test_two_people_of_one_name_differ_before_the_start(names: str, typed: Typed) -> None:
    said = typed("run", "turntable", "--athletes", names)
    assert said.status == 2
    assert "is there twice: give one an initial" in said.err


@pytest.mark.parametrize("speed", ["0", "1001", "fast"])
def test_a_speed_is_a_number_of_times(speed: str, typed: Typed) -> None:
    said = typed("run", "turntable", "--speed", speed)
    assert said.status == 2
    assert "write a whole number from 1 to 1000" in said.err


@pytest.mark.parametrize("nobody", ["", " ", " , "])
@pytest.mark.parametrize("command", [("run",), ("rehearse", "--taps", "taps.csv")])
def test_a_class_of_nobody_is_refused_in_words(
    typed: Typed, command: tuple[str, ...], nobody: str
) -> None:
    said = typed(*command, "turntable", "--athletes", nobody)
    assert said.status == 2
    assert f'"{nobody}" names nobody: write who it is, with commas between' in said.err


@pytest.fixture
def shown(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[dict[str, Any]]:
    """What a screen for a clock without a plan is opened with, in place of one."""
    opened: list[dict[str, Any]] = []

    def show_clock(folder: Path, club: Club, **more: Any) -> int:
        assert folder == tmp_path
        assert club.unit == "kg"
        opened.append(more)
        return 0

    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("classclock.commands.run.needs_a_terminal", lambda: None)
    monkeypatch.setattr("classclock.screens.start.show_clock", show_clock)
    return opened


def test_without_a_plan_it_asks_which_clock(typed: Typed, shown: list[dict[str, Any]]) -> None:
    assert typed("run").status == 0
    assert shown == [{"speed": 1, "line": "", "names": (), "serves": None}]


@pytest.mark.parametrize("line", [*FORMS, "Rounds 12:30", "8x20/10"])
def test_a_line_that_reads_as_a_clock_is_taken(
    line: str, typed: Typed, shown: list[dict[str, Any]]
) -> None:
    assert typed("run", line, "--athletes", "Ilse, Bram", "--speed", "20").status == 0
    assert shown == [{"speed": 20, "line": line, "names": ("Ilse", "Bram"), "serves": None}]


def test_a_file_of_that_name_is_the_plan(
    typed: Typed, shown: list[dict[str, Any]], tmp_path: Path
) -> None:
    (tmp_path / "rounds 12").write_text("title = 3\n", encoding="utf-8")
    said = typed("run", "rounds 12")
    assert said.status == 1
    assert said.err.startswith("rounds 12:1  ")
    assert shown == []


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("runds 12", '"runds 12" is no clock: write "rounds 12"; nor is there such a plan file'),
        ("4 x 3/1", '"4 x 3/1" is no clock: write "4 x 3:00/1:00"; nor is there such a plan file'),
        ("tuesday.toml", "tuesday.toml  there is no such file. Check the name and the folder."),
        ("x" * 5000, "xxx"),
    ],
)
def test_what_is_neither_a_plan_nor_a_clock_says_what_to_write(
    line: str, says: str, typed: Typed, shown: list[dict[str, Any]]
) -> None:
    said = typed("run", line)
    assert said.status == 1
    assert says in said.err
    assert said.err.count("\n") == 1
    assert shown == []


def test_the_words_of_a_line_may_come_without_quotes(
    typed: Typed, shown: list[dict[str, Any]]
) -> None:
    assert typed("run", "rounds", "12", "--athletes", "Ilse").status == 0
    assert typed("run", "--athletes", "Ilse", "rounds", "12").status == 0
    assert shown == [{"speed": 1, "line": "rounds 12", "names": ("Ilse",), "serves": None}] * 2


def test_two_plans_are_one_too_many(typed: Typed, shown: list[dict[str, Any]]) -> None:
    said = typed("run", "turntable", "gradient")
    assert said.status == 2
    assert said.err == "one plan at a time: write classclock run turntable\n"
    assert shown == []
