"""`bar`, as it is typed."""

import json

import pytest

from tests.commands.typed import Typed

pytestmark = pytest.mark.usefixtures("club_with_plates")


def test_a_total_is_answered_with_the_plates_of_one_side(typed: Typed) -> None:
    said = typed("bar", "82.5")
    assert said.status == 0
    assert said.out.startswith("82.5 kg on the Long bar: 20 + 10 + 1.25 a side\n")
    assert "█1.25█" in said.out


def test_a_total_that_cant_be_made_has_its_neighbours(typed: Typed) -> None:
    said = typed("bar", "61")
    assert said.status == 1
    assert "60 kg on the Long bar" in said.out
    assert "62.5 kg on the Long bar" in said.out


def test_above_all_plates_there_is_only_a_load_below(typed: Typed) -> None:
    said = typed("bar", "500")
    assert "160 kg on the Long bar" in said.out
    assert "Nothing above it: the club has no more plates." in said.out


def test_below_the_bar_something_lighter_is_offered(typed: Typed) -> None:
    said = typed("bar", "12,5")
    assert said.status == 1
    assert "Take a kettlebell of 12 kg, or a dumbbell of 5 kg, or two dumbbells of 5 kg" in said.out
    assert "Long bar" not in said.out


@pytest.mark.parametrize("total", [("135lb",), ("135", "--lb")])
def test_a_total_in_pounds_is_answered_in_both_units(typed: Typed, total: tuple[str, ...]) -> None:
    assert "60 kg (132.28 lb) on the Long bar: 20 a side" in typed("bar", *total).out


def test_the_plates_come_as_json_too(typed: Typed) -> None:
    answer = json.loads(typed("bar", "82.5", "--bar", "long BAR", "--json").out)
    assert answer["exact"]["side"] == ["20 kg", "10 kg", "1.25 kg"]
    assert answer["exact"]["kg"] == 82.5
    assert json.loads(typed("bar", "12", "--json").out)["lighter"]["kettlebell"] == "12 kg"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("heavy",), '"heavy" is not a load: write "22.5 kg" or "50 lb"'),
        (("60", "--bar", "short"), 'no bar is called "short": the club has Long bar'),
        (("60", "--kg", "--lb"), "not allowed with"),
    ],
)
def test_what_cant_be_understood_gets_one_clear_error(
    typed: Typed, arguments: tuple[str, ...], words: str
) -> None:
    said = typed("bar", *arguments)
    assert said.status == 2
    assert words in said.err
    assert said.out == ""
