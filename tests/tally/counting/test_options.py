"""An option changed in the middle."""

from typing import Any

import pytest

from classclock.tally import commands as cmd


@pytest.fixture
def piece(rehearsal: Any, turntable: Any) -> Any:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "1:40", "3:20")
    return piece


def test_rounds_done_keep_their_size_and_from_here_on_the_lane_has_its_own(piece: Any) -> None:
    piece.do(cmd.ChangeOption("Noor", 2), "3:30")  # the step-up, 4 for 6
    piece.tap("Noor", "5:00")
    assert [r.reps for r in piece.tally("Noor").rounds] == [27, 27, 25]
    assert [r.reps for r in piece.tally("Bram").rounds] == []


def test_the_lane_is_modified_from_then_on(piece: Any) -> None:
    assert not piece.tally("Noor").modified
    piece.do(cmd.ChangeOption("Noor", 2), "3:30")
    score = piece.score("Noor")
    assert piece.tally("Noor").modified
    assert score.modification == "step-up"
    assert score.options == ("step-up", None, None)
    assert score.note == "option changed at 3:30"


def test_options_are_numbered_through_all_stations_of_the_piece(piece: Any) -> None:
    piece.do(cmd.ChangeOption("Noor", 3), "3:30")
    assert piece.score("Noor").modification == "squat to a box"


def test_options_of_several_stations_are_all_named(piece: Any) -> None:
    piece.do(cmd.ChangeOption("Noor", 1), "3:30")
    piece.do(cmd.ChangeOption("Noor", 3), "3:31")
    assert piece.score("Noor").modification == "lower box, squat to a box"


def test_option_nought_is_as_written_again(piece: Any) -> None:
    piece.do(cmd.ChangeOption("Noor", 3), "3:30")
    piece.do(cmd.ChangeOption("Noor", 0), "4:30")
    assert not piece.tally("Noor").modified
    assert piece.score("Noor").modification == ""


def test_an_option_that_is_not_there_is_refused_with_those_that_are(piece: Any) -> None:
    assert piece.do(cmd.ChangeOption("Noor", 4), "3:30") == (
        "the options here are 1 lower box, 2 step-up, 3 squat to a box, and 0 as written"
    )


def test_an_option_changed_by_mistake_is_taken_back(piece: Any) -> None:
    piece.do(cmd.ChangeOption("Noor", 2), "3:30")
    piece.do(cmd.TakeBack("Noor"), "3:40")
    assert not piece.tally("Noor").modified


def test_a_number_is_checked_against_the_new_size(piece: Any) -> None:
    piece.do(cmd.ChangeOption("Noor", 3), "3:30")
    assert "23 of 6+9+8" in piece.number("Noor", 24, "4:00")
    piece.number("Noor", 23, "5:00")
    assert [r.reps for r in piece.tally("Noor").rounds] == [27, 27, 23]


def test_odd_reps_that_no_longer_fit_are_cut_and_asked_for_again(piece: Any) -> None:
    piece.number("Noor", 25, "4:50")
    piece.do(cmd.ChangeOption("Noor", 3), "4:55")
    assert piece.tally("Noor").odd == 22
    assert "ask again" in piece.tally("Noor").doubts[0]


def test_an_option_may_be_changed_while_the_count_in_runs(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.go = 0
    assert piece.do(cmd.ChangeOption("Noor", 2), "0:05") == ""
    assert piece.score("Noor").note == ""


def test_a_piece_without_options_says_so(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(**third_rail)
    assert piece.do(cmd.ChangeOption("Noor", 1), "1:00") == (
        "the plan has no options for this piece"
    )


def test_a_change_is_compared_with_the_lanes_pace_per_rep(rehearsal: Any) -> None:
    station = {"movement": "push-up", "reps": 30, "options": [{"name": "from a box", "reps": 10}]}
    piece = rehearsal(format="rounds-in-time", time="20:00", station=[station])
    piece.tap("Noor", "1:30", "3:00", "4:30")
    piece.do(cmd.ChangeOption("Noor", 1), "4:31")
    piece.tap("Noor", "5:00")
    assert not piece.tally("Noor").doubts


def test_what_was_taken_for_want_of_equipment_isnt_what_somebody_does_by_themselves(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(lane={"Noor": {"options": (1, 0, 1), "own_options": (0, 0, 1)}}, **turntable)
    assert piece.score("Noor").options == ("lower box", None, "squat to a box")
    assert piece.score("Noor").own_options == (None, None, "squat to a box")
    piece.do(cmd.ChangeOption("Noor", 2), "3:30")
    assert piece.score("Noor").own_options == ("step-up", None, "squat to a box"), "chosen now"
    assert piece.score("Bram").own_options is None
