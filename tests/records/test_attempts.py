"""What stands of the loads that a lane tried."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec import convert

from classclock.records.attempts import NO_SET, kilograms, reps_of_set, standing_attempts
from classclock.records.document import LaneResults
from tests.blank_results import LANE


def lane(load_kg: float | None, *made: float, score: str = "", missed: float = 0) -> LaneResults:
    tried: list[dict[str, Any]] = [
        {"set": number, "load": f"{kg} kg", "load_kg": kg, "made": True}
        for number, kg in enumerate(made, start=1)
    ]
    if missed:
        tried.append({"set": 9, "load": f"{missed} kg", "load_kg": missed, "made": False})
    return convert({**LANE, "load_kg": load_kg, "score": score, "attempts": tried}, LaneResults)


def test_a_load_that_was_put_right_is_what_it_was_put_right_to() -> None:
    stands = tuple(standing_attempts(lane(82.5, 60, 825, score="82.5 kg")))
    assert [(one.load, one.set) for one in stands] == [("60 kg", 1), ("82.5 kg", NO_SET)]


def test_a_load_that_was_missed_stands_above_the_score() -> None:
    stands = tuple(standing_attempts(lane(80, 80, missed=90)))
    assert [(one.load, one.made) for one in stands] == [("80 kg", True), ("90 kg", False)]


def test_a_score_in_pounds_keeps_its_unit() -> None:
    *_, last = standing_attempts(lane(61.23496995, 600, score="135 lb"))
    assert last.load == "135 lb"


def test_a_score_that_says_another_load_than_its_column_is_in_kilograms() -> None:
    *_, last = standing_attempts(lane(82.5, 825, score="heavy"))
    assert last.load == "82.5 kg"


def test_without_a_score_all_that_was_tried_stands() -> None:
    assert [one.load for one in standing_attempts(lane(None, missed=90))] == ["90 kg"]


LOADS = st.integers(1, 400)


@given(LOADS, st.lists(LOADS, max_size=6))
def test_the_heaviest_that_stands_is_the_score(score: int, made: list[int]) -> None:
    stands = list(standing_attempts(lane(score, *made)))
    assert max(map(kilograms, stands)) == Decimal(score)
    assert sum(one.load_kg == score for one in stands) == max(1, made.count(score))


@pytest.mark.parametrize(("number", "reps"), [(1, 5), (2, 3), (7, 3), (NO_SET, None)], ids=str)
def test_a_set_beyond_the_last_is_like_the_last(number: int, reps: int | None) -> None:
    assert reps_of_set((5, 3), number) == reps
