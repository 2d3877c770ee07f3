"""`load`, as it is typed."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import Typed

pytestmark = pytest.mark.usefixtures("club_with_plates")


@pytest.fixture
def ilses_lifts(club_with_plates: Path, typed: Typed) -> None:
    """A class that was run on a plan with a lift, its results saved in the club's folder."""
    folder = club_with_plates
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


def test_a_set_gives_a_maximum_and_loads_that_can_be_made(typed: Typed) -> None:
    said = typed("load", "100", "--reps", "5")
    assert said.status == 0
    assert "maximum: 112.5 kg (100 kg x 5, Brzycki)" in said.out
    assert "the coach decides" in said.out
    assert "  80 %  90 kg    20 + 15 a side\n" in said.out
    assert "  75 %  82.5 kg  20 + 10 + 1.25 a side  (1.88 kg short)\n" in said.out


def test_the_list_of_an_estimated_maximum_ends_at_90_percent(typed: Typed) -> None:
    # Common practice, no source: nobody has lifted it yet.
    said = typed("load", "100", "--reps", "5").out
    assert "90 %  100 kg" in said
    assert "95 %" not in said
    assert "100 %" not in said
    assert said.endswith("\nabove 90 %: only of a load that was lifted once\n")
    answer = json.loads(typed("load", "100", "--reps", "5", "--json").out)
    assert answer["sets"][-1]["percent"] == 90


def test_the_list_of_a_load_that_was_lifted_once_goes_up_to_it(typed: Typed) -> None:
    said = typed("load", "100").out
    assert "100 %  100 kg" in said.splitlines()[-1]
    answer = json.loads(typed("load", "100", "--json").out)
    assert [one["percent"] for one in answer["sets"][-3:]] == [90, 95, 100]


def test_working_sets_come_with_their_warm_ups(typed: Typed) -> None:
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


def test_the_other_formula_can_be_chosen(typed: Typed) -> None:
    said = typed("load", "90", "--reps", "10", "--formula", "epley", "--json")
    answer = json.loads(said.out)
    assert (answer["formula"], answer["maximum"]["kg"]) == ("epley", 120.0)
    assert not answer["unreliable"]


def test_a_table_in_pounds_names_both_units(typed: Typed) -> None:
    assert "60 kg (132.28 lb)" in typed("load", "135", "--lb").out


def test_a_set_below_the_bar_is_never_the_bar(typed: Typed) -> None:
    said = typed("load", "30", "--percent", "50")
    assert "15 kg is below every bar of the club" in said.out
    assert "a side" not in said.out


@pytest.mark.usefixtures("ilses_lifts")
def test_an_athletes_lifts_come_from_the_results(typed: Typed) -> None:
    said = typed("load", "ilse", "--lift", "Front Squat", "--percent", "70")
    assert said.status == 0
    assert "heaviest so far: 90 kg x 3" in said.out
    # Brzycki: 90 x 36/34.
    assert "maximum: 95.29 kg (90 kg x 3, Brzycki)" in said.out
    assert "70 %  65 kg" in said.out


@pytest.mark.usefixtures("ilses_lifts")
def test_an_athletes_lifts_come_as_json_too(typed: Typed) -> None:
    answer: dict[str, Any] = json.loads(typed("load", "Ilse", "--json").out)
    (squat,) = answer["lifts"]
    assert squat["lift"] == "front squat"
    assert squat["heaviest"]["load"] == "90 kg"
    assert (squat["sets"][-1]["percent"], squat["sets"][-1]["loading"]["kg"]) == (90, 85.0)


@pytest.mark.usefixtures("ilses_lifts")
@pytest.mark.parametrize("asked", [("Bram",), ("Noor",), ("Ilse", "--lift", "deadlift")])
def test_without_a_record_the_load_is_chosen_together(typed: Typed, asked: tuple[str, ...]) -> None:
    said = typed("load", *asked)
    assert said.status == 1
    assert said.out.endswith("no record: choose the load together\n")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("100", "--reps", "25"), "25 reps say too little about a maximum"),
        (("100", "--percent", "70,140"), "write percentages above 0 and up to 120"),
        (("100", "--percent", "nan"), "write percentages above 0 and up to 120"),
    ],
)
def test_what_cant_be_understood_gets_one_clear_error(
    typed: Typed, arguments: tuple[str, ...], words: str
) -> None:
    said = typed("load", *arguments)
    assert said.status == 2
    assert words in said.err
    assert said.out == ""


@pytest.mark.parametrize(
    "written", ["0", "-5", "1e309", "NaN", "0 kg", "12345", "0lb", "\u0668\u0660"]
)
def test_a_number_that_is_no_load_is_no_name_either(typed: Typed, written: str) -> None:
    said = typed("load", written)
    assert said.status == 2
    assert "is no load: write what was lifted, as in 85 or 185lb" in said.err
    assert not said.out


@pytest.mark.parametrize("written", ["82,5", "65,70,82,5", "82,5%"])
def test_a_comma_that_may_be_a_decimal_mark_is_asked_about(typed: Typed, written: str) -> None:
    said = typed("load", "100", "--percent", written)
    assert said.status == 2
    assert "Write 82.5 with a point, or 82, 5 with a space" in said.err


@pytest.mark.parametrize(
    ("written", "percents"), [("82.5", [82.5]), ("82, 5", [82, 5]), ("65,70 %", [65, 70])]
)
def test_percentages_are_read_as_they_are_said(
    typed: Typed, written: str, percents: list[float]
) -> None:
    answer = json.loads(typed("load", "100", "--percent", written, "--json").out)
    assert [one["percent"] for one in answer["sets"]] == percents


@pytest.mark.parametrize(
    "words",
    [
        ("load", "100", "--reps", "\u0665"),
        ("load", "100", "--percent", "\u0666\u0665"),
        ("bar", "\u0668\u0660"),
        ("check", "plan.toml", "--lanes", "\u0665"),
        ("demo", "--seed", "\u0665"),
        ("demo", "--speed", "\u0665"),
    ],
)
def test_numbers_are_written_with_the_digits_0_to_9(typed: Typed, words: tuple[str, ...]) -> None:
    said = typed(*words)
    assert said.status == 2
    assert "write" in said.err


def test_what_is_short_has_two_decimals_at_most(typed: Typed) -> None:
    said = typed("load", "113", "--lb").out + typed("load", "102.5").out
    short = re.findall(r"\(([\d.]+) (?:kg|lb) short\)", said)
    assert len(short) > 9
    assert all(len(one.partition(".")[2]) <= 2 for one in short)
