"""What a mistake was meant to be can be copied from the message into the file."""

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.file_key import COUNT, LOAD, TEXT, YES, FileKey
from classclock.plan.keys import KEYS
from classclock.plan.reading.meant import meant
from classclock.units.loads import parse_load


@pytest.mark.parametrize(
    ("key", "value", "written"),
    [
        ("load", "24/16 kg", 'load = { heavier = "24 kg", lighter = "16 kg" }'),
        ("load", "35 lb / 53 lb", 'load = { heavier = "53 lb", lighter = "35 lb" }'),
        ("load", "heavy", None),
        ("scheme", "18, 12, 6", "scheme = [18, 12, 6]"),
        ("scheme", "18", None),
        ("reps", "12 reps", "reps = 12"),
        ("reps", "12-", None),
        ("metres", "2 km", "metres = 2000"),
        ("metres", "2 cal", None),
        ("calories", "15 cal", "calories = 15"),
        ("seconds", "0:30", "seconds = 30"),
        ("seconds", "2 min", "seconds = 120"),
        ("rounds", "4", "rounds = 4"),
        ("rounds", "0", None),
        ("tie_break", "Yes", "tie_break = true"),
        ("name", 5, 'name = "5"'),
        ("name", True, None),
        ("title", ["a"], None),
    ],
)
def test_what_a_coach_writes_elsewhere_is_put_as_the_file_takes_it(
    key: str, value: object, written: str | None
) -> None:
    assert meant(key, KEYS[key], value) == written


@pytest.mark.parametrize(
    ("key", "words", "written"),
    [
        ("reps", ("7", "7x", "7 rep", "7 reps"), "reps = 7"),
        ("metres", ("7", "7 m", "7 metres", "7 meters"), "metres = 7"),
        ("metres", ("7km",), "metres = 7000"),
        ("calories", ("7", "7 cal", "7 cals", "7 kcal", "7 calories"), "calories = 7"),
        ("seconds", ("7", "7s", "7 sec", "7 seconds", "0:07"), "seconds = 7"),
        ("seconds", ("7 min", "7:00"), "seconds = 420"),
    ],
)
def test_an_amount_is_put_in_the_keys_own_measure_however_that_is_written(
    key: str, words: tuple[str, ...], written: str
) -> None:
    # SI prefixes (SI brochure, table 7) and 60 seconds in a minute (table 8).
    assert {meant(key, KEYS[key], said) for said in words} == {written}


def test_reps_that_change_evenly_are_a_climb_or_a_scheme_and_others_a_scheme() -> None:
    grows = meant("reps", KEYS["reps"], "3 6 9")
    assert grows is not None
    assert grows.startswith("climb = { first = 3, step = 3 } in place of reps")
    assert "scheme = [3, 6, 9]" in grows
    for uneven in ("21-15-9", "3 6 12", "5 5 5", [9, 6, 3]):
        told = meant("reps", KEYS["reps"], uneven)
        assert told is not None
        assert told.startswith("scheme = [")


def test_pieces_are_written_with_the_quotes_that_a_name_of_two_words_needs() -> None:
    known = FileKey("pieces and how many one person needs", "{ dumbbells = 2 }")
    assert meant("equipment", known, "pull up bars") == 'equipment = { "pull up bars" = 1 }'


numbers = st.integers(0, 10**7).map(str)
texts = st.one_of(
    st.text(max_size=12),
    st.lists(numbers, min_size=1, max_size=5).flatmap(
        lambda parts: st.sampled_from([" ", "-", ", ", "/", " / "]).map(lambda by: by.join(parts))
    ),
    st.builds("{} {}".format, numbers, st.sampled_from(["m", "km", "kg", "lb", "cal", "min", ""])),
)


@given(st.sampled_from(sorted(KEYS)), texts | st.integers() | st.lists(st.integers(), max_size=4))
def test_whatever_is_guessed_can_be_read(key: str, value: Any) -> None:
    guess = meant(key, KEYS[key], value)
    if guess is None:
        return
    assignment = guess.partition(" in ")[0]
    ((name, read),) = tomllib.loads(assignment).items()
    match KEYS[key].takes:
        case "a load":
            assert LOAD == "a load"
            assert all(parse_load(str(one), "kg") for one in read.values())
        case takes if takes in (TEXT, YES):
            assert isinstance(read, str if takes == TEXT else bool)
        case takes if takes == COUNT and name == key:
            assert read > 0
