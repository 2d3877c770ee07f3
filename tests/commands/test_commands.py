"""The commands `bar` and `load`, as they are typed."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from classclock.commands.command_line import main


class Said(NamedTuple):
    status: int
    out: str
    err: str


Type = Callable[..., Said]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The club of the worked examples."""
    (tmp_path / "club.toml").write_text(
        "kettlebells = [8, 12]\ndumbbells = [5]\n"
        '[[bar]]\nname = "Long bar"\nweight = 20\ncount = 4\n'
        "[plates]\n"
        'pairs = { "20" = 1, "15" = 2, "10" = 1, "5" = 1, "2.5" = 1, "1.25" = 2 }\n',
        encoding="utf-8",
    )
    return tmp_path


@pytest.fixture
def typed(folder: Path, capsys: pytest.CaptureFixture[str]) -> Type:
    def run(*arguments: str) -> Said:
        try:
            status = main([*arguments, "--club", str(folder)])
        except SystemExit as ended:
            status = int(str(ended.code))
        return Said(status, *capsys.readouterr())

    return run


@pytest.fixture
def ilses_lifts(folder: Path, typed: Type) -> None:
    """A class that was run on a plan with a lift, its results saved in the club's folder."""
    plan = folder / "strength.toml"
    plan.write_text(
        'title = "Depot Tuesday"\n[[segment]]\nname = "Front squat"\nformat = "interval"\n'
        'repeat = 2\nsteps = [{ work = "1:00" }]\nlift = "front squat"\n'
        'sets = [{ reps = 5, load = "80 kg" }, { reps = 3, load = "85 kg" }]\nscore = "load"\n',
        encoding="utf-8",
    )
    taps = folder / "taps.csv"
    taps.write_text("seconds,keys\n30,i\n90,90i\n", encoding="utf-8")
    said = typed("rehearse", str(plan), "--athletes", "Ilse, Bram", "--taps", str(taps), "--json")
    document = json.loads(said.out)
    assert document["pieces"][0]["lift"] == "front squat"
    assert document["pieces"][0]["sets"] == [5, 3]
    (folder / "results").mkdir()
    (folder / "results" / "one.json").write_text(said.out, encoding="utf-8")


# -- bar -----------------------------------------------------------------------------


def test_a_total_is_answered_with_the_plates_of_one_side(typed: Type) -> None:
    said = typed("bar", "82.5")
    assert said.status == 0
    assert said.out.startswith("82.5 kg on the Long bar: 20 + 10 + 1.25 a side\n")
    assert "█1.25█" in said.out


def test_a_total_that_cant_be_made_has_its_neighbours(typed: Type) -> None:
    said = typed("bar", "61")
    assert said.status == 1
    assert "60 kg on the Long bar" in said.out
    assert "62.5 kg on the Long bar" in said.out


def test_above_all_plates_there_is_only_a_load_below(typed: Type) -> None:
    said = typed("bar", "500")
    assert "160 kg on the Long bar" in said.out
    assert "Nothing above it: the club has no more plates." in said.out


def test_below_the_bar_something_lighter_is_offered(typed: Type) -> None:
    said = typed("bar", "12,5")
    assert said.status == 1
    assert "Take a kettlebell of 12 kg, or a dumbbell of 5 kg, or two dumbbells of 5 kg" in said.out
    assert "Long bar" not in said.out


@pytest.mark.parametrize("total", [("135lb",), ("135", "--lb")])
def test_a_total_in_pounds_is_answered_in_both_units(typed: Type, total: tuple[str, ...]) -> None:
    assert "60 kg (132.28 lb) on the Long bar: 20 a side" in typed("bar", *total).out


def test_the_plates_come_as_json_too(typed: Type) -> None:
    answer = json.loads(typed("bar", "82.5", "--bar", "long BAR", "--json").out)
    assert answer["exact"]["side"] == ["20 kg", "10 kg", "1.25 kg"]
    assert answer["exact"]["kg"] == 82.5
    assert json.loads(typed("bar", "12", "--json").out)["lighter"]["kettlebell"] == "12 kg"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("bar", "heavy"), '"heavy" is not a load: write "22.5 kg" or "50 lb"'),
        (("bar", "60", "--bar", "short"), 'no bar is called "short": the club has Long bar'),
        (("load", "100", "--reps", "25"), "25 reps say too little about a maximum"),
        (("load", "100", "--percent", "70,140"), "write percentages above 0 and up to 120"),
        (("load", "100", "--percent", "nan"), "write percentages above 0 and up to 120"),
        (("bar", "60", "--kg", "--lb"), "not allowed with"),
    ],
)
def test_what_cant_be_understood_gets_one_clear_error(
    typed: Type, arguments: tuple[str, ...], words: str
) -> None:
    said = typed(*arguments)
    assert said.status == 2
    assert words in said.err
    assert said.out == ""


def test_a_fault_in_the_clubs_settings_is_named_first(folder: Path, typed: Type) -> None:
    (folder / "club.toml").write_text("plates = 3", encoding="utf-8")
    for command in ("bar", "load"):
        said = typed(command, "60")
        assert said.status == 1
        assert "club.toml:1" in said.err


# -- load ----------------------------------------------------------------------------


def test_a_set_gives_a_maximum_and_loads_that_can_be_made(typed: Type) -> None:
    said = typed("load", "100", "--reps", "5")
    assert said.status == 0
    assert "maximum: 112.5 kg (100 kg x 5, Brzycki)" in said.out
    assert "the coach decides" in said.out
    assert "  80 %  90 kg    20 + 15 a side\n" in said.out
    assert "  75 %  82.5 kg  20 + 10 + 1.25 a side  (1.875 kg short)\n" in said.out


def test_the_list_of_an_estimated_maximum_ends_at_90_percent(typed: Type) -> None:
    # Common practice, no source: nobody has lifted it yet.
    said = typed("load", "100", "--reps", "5").out
    assert "90 %  100 kg" in said
    assert "95 %" not in said
    assert "100 %" not in said
    assert said.endswith("\nabove 90 %: only of a load that was lifted once\n")
    answer = json.loads(typed("load", "100", "--reps", "5", "--json").out)
    assert answer["sets"][-1]["percent"] == 90


def test_the_list_of_a_load_that_was_lifted_once_goes_up_to_it(typed: Type) -> None:
    said = typed("load", "100").out
    assert "100 %  100 kg" in said.splitlines()[-1]
    answer = json.loads(typed("load", "100", "--json").out)
    assert [one["percent"] for one in answer["sets"][-3:]] == [90, 95, 100]


def test_working_sets_come_with_their_warm_ups(typed: Type) -> None:
    said = typed("load", "100", "--percent", "60,70%,80")
    rows = [line.split()[:3] for line in said.out.splitlines()[3:]]
    assert rows == [
        ["warm-up", "22.5", "kg"],
        ["warm-up", "35", "kg"],
        ["warm-up", "47.5", "kg"],
        ["60", "%", "60"],
        ["70", "%", "70"],
        ["80", "%", "80"],
    ]


def test_the_other_formula_can_be_chosen(typed: Type) -> None:
    said = typed("load", "90", "--reps", "10", "--formula", "epley", "--json")
    answer = json.loads(said.out)
    assert (answer["formula"], answer["maximum"]["kg"]) == ("epley", 120.0)
    assert not answer["unreliable"]


def test_a_table_in_pounds_names_both_units(typed: Type) -> None:
    assert "60 kg (132.28 lb)" in typed("load", "135", "--lb").out


def test_a_set_below_the_bar_is_never_the_bar(typed: Type) -> None:
    said = typed("load", "30", "--percent", "50")
    assert "15 kg is below every bar of the club" in said.out
    assert "a side" not in said.out


@pytest.mark.usefixtures("ilses_lifts")
def test_an_athletes_lifts_come_from_the_results(typed: Type) -> None:
    said = typed("load", "ilse", "--lift", "Front Squat", "--percent", "70")
    assert said.status == 0
    assert "heaviest so far: 90 kg x 3" in said.out
    # Brzycki: 90 x 36/34.
    assert "maximum: 95.29 kg (90 kg x 3, Brzycki)" in said.out
    assert "70 %  65 kg" in said.out


@pytest.mark.usefixtures("ilses_lifts")
def test_an_athletes_lifts_come_as_json_too(typed: Type) -> None:
    answer: dict[str, Any] = json.loads(typed("load", "Ilse", "--json").out)
    (squat,) = answer["lifts"]
    assert squat["lift"] == "front squat"
    assert squat["heaviest"]["load"] == "90 kg"
    assert (squat["sets"][-1]["percent"], squat["sets"][-1]["loading"]["kg"]) == (90, 85.0)


@pytest.mark.usefixtures("ilses_lifts")
@pytest.mark.parametrize("asked", [("Bram",), ("Noor",), ("Ilse", "--lift", "deadlift")])
def test_without_a_record_the_load_is_chosen_together(typed: Type, asked: tuple[str, ...]) -> None:
    said = typed("load", *asked)
    assert said.status == 1
    assert said.out.endswith("no record: choose the load together\n")
