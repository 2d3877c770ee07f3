"""Numbers in an interval piece: which interval they belong to."""

from typing import Any

import pytest

from classclock.tally.counting.work_steps import step_of


@pytest.fixture
def piece(rehearsal: Any, headway: Any) -> Any:
    return rehearsal(**headway)


def test_a_number_is_the_reps_of_the_latest_work_step(piece: Any) -> None:
    piece.number("Noor", 14, "0:19")
    piece.number("Noor", 13, "0:55")
    assert piece.tally("Noor").intervals[:3] == (14, 13, None)


def test_no_reps_are_a_number_too(piece: Any) -> None:
    piece.number("Noor", 0, "0:19")
    assert piece.tally("Noor").intervals[0] == 0
    assert piece.score("Noor").total_reps == 0


def test_early_in_a_work_step_a_number_belongs_to_the_one_before_if_that_lane_lacks_it(
    piece: Any,
) -> None:
    piece.number("Noor", 14, "0:34.999")  # a quarter of 0:20 is 0:05
    assert piece.tally("Noor").intervals[:2] == (14, None)


def test_once_a_quarter_of_the_work_step_has_gone_it_belongs_to_that_one(piece: Any) -> None:
    piece.number("Noor", 14, "0:35")
    assert piece.tally("Noor").intervals[:2] == (None, 14)


def test_early_in_a_work_step_it_belongs_to_that_one_if_the_lane_has_the_one_before(
    piece: Any,
) -> None:
    piece.number("Noor", 14, "0:25")
    piece.number("Noor", 2, "0:31")
    piece.number("Bram", 11, "0:32")
    assert piece.tally("Noor").intervals[:2] == (14, 2)
    assert piece.tally("Bram").intervals[:2] == (11, None)


def test_a_quarter_of_a_long_work_step_is_ten_seconds_at_most(rehearsal: Any) -> None:
    piece = rehearsal(
        format="interval", repeat=4, steps=[{"work": "4:00"}, {"rest": "3:00"}], score="best"
    )
    piece.number("Noor", 50, "7:09.999")
    piece.number("Bram", 50, "7:10")
    assert piece.tally("Noor").intervals == (50, None, None, None)
    assert piece.tally("Bram").intervals == (None, 50, None, None)


def test_three_colon_twelve_noor_names_interval_three(piece: Any) -> None:
    assert piece.number("Noor", 12, "1:40", interval=3) == ""
    assert piece.tally("Noor").intervals[2] == 12


def test_an_interval_that_has_not_begun_is_refused(piece: Any) -> None:
    assert "interval 5 hasn't begun, this is 4" in piece.number("Noor", 12, "1:40", interval=5)


@pytest.mark.parametrize("interval", [0, 9])
def test_an_interval_that_the_piece_does_not_have_is_refused(piece: Any, interval: int) -> None:
    assert "intervals 1 to 8" in piece.number("Noor", 12, "3:55", interval=interval)


def test_after_the_end_a_number_is_that_of_the_last_interval(piece: Any) -> None:
    piece.number("Noor", 9, "5:00")
    assert piece.tally("Noor").intervals[7] == 9


def test_a_tap_is_one_rep_of_the_interval_that_is_on(piece: Any) -> None:
    piece.tap("Noor", "0:05", "0:10", "0:31")
    assert piece.tally("Noor").intervals[:2] == (2, 1)


def test_a_missing_interval_is_unknown_and_not_zero(piece: Any) -> None:
    piece.number("Noor", 14, "0:19")
    assert piece.tally("Noor").intervals == (14, *[None] * 7)
    assert piece.score("Noor").score == "14+? reps"


def test_a_missing_interval_keeps_the_lowest_from_being_settled(
    rehearsal: Any, headway: Any
) -> None:
    piece = rehearsal(**{**headway, "score": "lowest"})
    for interval in range(1, 9):
        piece.number("Ilse", 10 + interval, "4:00", interval=interval)
        if interval != 3:
            piece.number("Noor", 20, "4:00", interval=interval)
    assert piece.score("Ilse", settled=True).score == "11 reps"
    assert piece.score("Noor", settled=True).score == "?"
    assert piece.score("Noor", settled=True).rank is None
    piece.number("Noor", 12, "4:10", interval=3)
    assert piece.score("Noor", settled=True).rank == 1


def test_before_the_first_work_step_there_is_nothing_to_count(rehearsal: Any) -> None:
    piece = rehearsal(
        format="interval", repeat=2, steps=[{"rest": "0:10"}, {"work": "0:20"}], score="total"
    )
    assert piece.number("Noor", 5, "0:05") == "no interval has begun yet"
    assert piece.tap("Noor", "0:05") == "no interval has begun yet"


def test_an_interval_is_named_only_where_there_are_some(rehearsal: Any, turntable: Any) -> None:
    assert "no intervals" in rehearsal(**turntable).number("Noor", 5, "0:05", interval=1)


def test_no_step_before_the_clock_has_started(segment_of: Any, piece: Any) -> None:
    assert step_of(piece.sheet.timeline, -1, lambda _: True) is None
