"""A round far too soon is doubtful; one far too late asks whether a call was missed."""

import statistics
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.tally.commands import TakeBack
from classclock.tally.counting.pace import Pace, Verdict, judge


@pytest.fixture
def piece(rehearsal: Any, turntable: Any) -> Any:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "1:40", "3:20", "5:00")
    return piece


def test_a_round_under_40_percent_of_the_lanes_own_median_counts_and_is_doubtful(
    piece: Any,
) -> None:
    piece.tap("Noor", "5:39.999")
    assert len(piece.tally("Noor").rounds) == 4
    assert piece.tally("Noor").rounds[3].doubtful
    assert piece.tally("Noor").doubts == ("round 4 in 0:39 is very short",)


def test_a_round_of_just_40_percent_is_not_doubted(piece: Any) -> None:
    piece.tap("Noor", "5:40")
    assert not piece.tally("Noor").doubts


def test_a_round_over_180_percent_asks_whether_one_was_missed(piece: Any) -> None:
    piece.tap("Noor", "8:00.001")
    assert piece.tally("Noor").asks_missed
    assert not piece.tally("Noor").doubts, "asked quietly"


def test_a_round_of_just_180_percent_asks_nothing(piece: Any) -> None:
    piece.tap("Noor", "8:00")
    assert not piece.tally("Noor").asks_missed


def test_the_question_goes_with_the_next_round(piece: Any) -> None:
    piece.tap("Noor", "8:10", "9:50")
    assert not piece.tally("Noor").asks_missed


def test_before_there_are_three_rounds_nothing_is_doubted(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "1:40", "3:20", "3:25")
    assert not piece.tally("Noor").doubts


def test_a_doubt_lasts_until_it_is_taken_back(piece: Any) -> None:
    piece.tap("Noor", "5:05")
    piece.do(TakeBack("Noor"), "5:10")
    assert not piece.tally("Noor").doubts


def test_a_doubt_lasts_until_it_is_settled(piece: Any) -> None:
    piece.tap("Noor", "5:05")
    piece.settle("17:00")
    assert not piece.tally("Noor").doubts
    assert not piece.tally("Noor").rounds[3].doubtful


def test_pace_is_per_rep_so_a_small_round_of_a_climb_is_not_doubted(rehearsal: Any) -> None:
    piece = rehearsal(
        format="capped-for-time",
        cap="20:00",
        scheme=[30, 30, 30, 6],
        station=[{"movement": "step-up"}],
    )
    piece.tap("Noor", "1:30", "3:00", "4:30", "4:48")
    assert not piece.tally("Noor").doubts


def test_a_round_without_reps_has_a_pace_of_its_own(rehearsal: Any) -> None:
    piece = rehearsal(
        format="rounds-in-time", time="20:00", station=[{"movement": "run", "metres": 200}]
    )
    piece.tap("Noor", "1:30", "3:00", "4:30", "4:50")
    assert piece.tally("Noor").rounds[3].doubtful


paces = st.builds(Pace, st.integers(1, 10**7), st.integers(1, 300))


@given(st.lists(paces, min_size=3), paces, st.integers(1, 50))
def test_a_verdict_does_not_depend_on_how_fast_the_lane_is(
    earlier: list[Pace], latest: Pace, scale: int
) -> None:
    def scaled(each: Pace) -> Pace:
        return Pace(each.split * scale, each.reps)

    assert judge(scaled(latest), [scaled(each) for each in earlier]) == judge(latest, earlier)


@given(st.lists(paces, min_size=3), paces)
def test_a_verdict_compares_with_the_median_as_the_standard_library_has_it(
    earlier: list[Pace], latest: Pace
) -> None:
    median = statistics.median(Fraction(each.split, each.reps) for each in earlier)
    mine = Fraction(latest.split, latest.reps)
    assert judge(latest, earlier) == Verdict(
        doubtful=mine < median * Fraction(40, 100), slow=mine > median * Fraction(180, 100)
    )
