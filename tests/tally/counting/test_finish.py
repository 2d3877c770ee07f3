"""A set amount of work, and its finish."""

from typing import Any

import pytest

from classclock.tally import commands as cmd


@pytest.fixture
def piece(rehearsal: Any, third_rail: Any) -> Any:
    return rehearsal(**third_rail)


def test_the_score_is_the_time_of_the_tap_that_completes_the_work(piece: Any) -> None:
    piece.tap("Noor", "1:00", "2:00", "3:00", "4:00", "5:10.4")
    assert piece.tally("Noor").finish == 310_400
    assert piece.score("Noor").score == "5:11"
    assert piece.score("Noor").status == "finished"


def test_finished_now_fills_in_the_missing_rounds_and_marks_them_doubtful(piece: Any) -> None:
    piece.tap("Noor", "1:00", "2:00")
    piece.do(cmd.FinishNow("Noor"), "5:10")
    rounds = piece.tally("Noor").rounds
    assert [(r.filled, r.doubtful) for r in rounds] == [
        (False, False),
        (False, False),
        (True, True),
        (True, True),
        (False, False),
    ]
    assert rounds[4].at == 310_000
    assert piece.tally("Noor").doubts == ("round 3 was filled in", "round 4 was filled in")


def test_finished_now_after_all_but_one_round_leaves_nothing_in_doubt(piece: Any) -> None:
    piece.tap("Noor", "1:00", "2:00", "3:00", "4:00")
    piece.do(cmd.FinishNow("Noor"), "5:00")
    assert piece.tally("Noor").doubts == ()


def test_where_only_the_finish_is_counted_a_tap_is_the_finish_and_nothing_is_doubtful(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(**third_rail, count="finish")
    piece.tap("Noor", "8:30.001")
    assert piece.score("Noor").score == "8:31"
    assert piece.tally("Noor").doubts == ()
    assert piece.tally("Noor").total_reps == 125


def test_where_only_the_finish_is_counted_the_reps_at_the_cap_are_rounds_and_odd_reps(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(**third_rail, count="finish")
    said = piece.number("Noor", 60, "12:05")
    assert "25 of 10+15" in said
    assert piece.number("Noor", 10, "12:09", rounds=2) == ""
    assert piece.score("Noor", settled=True).score == "60 reps"


def test_taps_after_a_finish_are_refused(piece: Any) -> None:
    piece.do(cmd.FinishNow("Noor"), "5:00")
    assert piece.tap("Noor", "5:30") == "Noor has finished: -n takes it back"


def test_a_take_back_reopens_the_lane(piece: Any) -> None:
    piece.do(cmd.FinishNow("Noor"), "5:00")
    piece.do(cmd.TakeBack("Noor"), "5:05")
    assert piece.tally("Noor").finish is None
    assert piece.tally("Noor").rounds == ()
    assert piece.tap("Noor", "5:30") == ""


def test_all_rounds_set_by_a_number_is_a_finish_at_that_moment(piece: Any) -> None:
    piece.number("Noor", None, "6:00", rounds=5)
    assert piece.tally("Noor").finish == 360_000


def test_more_rounds_than_the_work_has_are_refused(piece: Any) -> None:
    assert piece.number("Noor", None, "6:00", rounds=6) == (
        "the work is 5 rounds: *n if Noor has finished"
    )


def test_rounds_in_time_have_no_finish(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    assert "no finish" in piece.do(cmd.FinishNow("Noor"), "6:00")


def test_a_scheme_ends_with_its_last_round(rehearsal: Any) -> None:
    piece = rehearsal(
        format="capped-for-time",
        cap="10:00",
        scheme=[18, 12, 6],
        station=[{"movement": "step-up"}, {"movement": "sit-up"}],
    )
    piece.tap("Noor", "2:00", "3:30", "4:20")
    assert [r.reps for r in piece.tally("Noor").rounds] == [36, 24, 12]
    assert piece.score("Noor").score == "4:20"


def test_a_lane_that_stops_keeps_its_tally_and_takes_no_more_taps(piece: Any) -> None:
    piece.tap("Noor", "1:00")
    piece.do(cmd.StopLane("Noor"), "1:30")
    assert piece.tap("Noor", "2:00") == "Noor has stopped: -n takes it back"
    assert piece.number("Noor", 4, "2:10") == "", "the odd reps it stopped with"
    assert piece.score("Noor").status == "stopped"
    assert piece.score("Noor").total_reps == 29


def test_a_lane_that_stops_with_nothing_done_is_absent(piece: Any) -> None:
    piece.do(cmd.StopLane("Noor"), "0:30")
    assert piece.score("Noor").status == "absent"


def test_taking_back_a_stop_brings_the_lane_back(piece: Any) -> None:
    piece.do(cmd.StopLane("Noor"), "0:30")
    piece.do(cmd.TakeBack("Noor"), "0:40")
    assert piece.tap("Noor", "1:00") == ""
