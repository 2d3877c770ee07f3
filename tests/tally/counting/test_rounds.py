"""Taps and numbers in a piece counted in rounds."""

from typing import Any

import pytest

from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide import Refusal, decide


@pytest.fixture
def piece(rehearsal: Any, turntable: Any) -> Any:
    return rehearsal(**turntable)


def test_a_tap_is_one_full_round_with_its_split(piece: Any) -> None:
    piece.tap("Noor", "1:40", "3:30")
    assert [(r.reps, r.at, r.split) for r in piece.tally("Noor").rounds] == [
        (27, 100_000, 100_000),
        (27, 210_000, 110_000),
    ]
    assert piece.tally("Noor").total_reps == 54


def test_a_tap_counts_for_its_own_lane_only(piece: Any) -> None:
    piece.tap("Noor", "1:40")
    assert piece.tally("Bram").rounds == ()


def test_twelve_noor_sets_the_odd_reps_of_the_round_in_progress(piece: Any) -> None:
    piece.tap("Noor", "1:40")
    assert piece.number("Noor", 12, "2:30") == ""
    assert piece.tally("Noor").odd == 12
    assert piece.tally("Noor").total_reps == 39


def test_a_round_of_one_rep_has_no_odd_reps_that_could_be_unknown(rehearsal: Any) -> None:
    climb = {"movement": "rope climb", "reps": 1}
    piece = rehearsal(format="rounds-in-time", time="10:00", station=[climb])
    assert piece.score("Noor").score == "0+0"
    piece.tap("Noor", "1:00")
    assert piece.tally("Noor").odd == 0
    assert piece.score("Noor").score == "1+0"


def test_odd_reps_are_unknown_again_once_the_next_round_is_tapped(piece: Any) -> None:
    piece.number("Noor", 12, "1:00")
    piece.tap("Noor", "1:40")
    assert piece.tally("Noor").odd is None


def test_as_many_odd_reps_as_the_round_has_is_a_completed_round_at_that_moment(piece: Any) -> None:
    piece.number("Noor", 27, "1:40")
    assert [(r.reps, r.at) for r in piece.tally("Noor").rounds] == [(27, 100_000)]
    assert piece.tally("Noor").odd is None


def test_more_odd_reps_than_the_round_has_are_refused_with_the_rounds_size(piece: Any) -> None:
    said = piece.number("Noor", 28, "1:40")
    assert said == (
        "28 is more than the whole round, 27 of 6+9+12: at most 26 odd reps, or n for the round"
    )
    assert piece.events == []


def test_seven_plus_noor_sets_the_full_rounds_without_splits_for_those_filled_in(
    piece: Any,
) -> None:
    piece.tap("Noor", "1:00")
    piece.number("Noor", None, "7:10", rounds=7)
    rounds = piece.tally("Noor").rounds
    assert len(rounds) == 7
    assert rounds[0].split == 60_000
    assert all(r.filled and r.split is None and not r.doubtful for r in rounds[1:])


def test_the_round_after_one_that_was_filled_in_has_no_split_but_its_moment(piece: Any) -> None:
    piece.number("Noor", None, "7:10", rounds=7)
    piece.tap("Noor", "8:00", "9:00")
    assert [(r.at, r.split) for r in piece.tally("Noor").rounds[7:]] == [
        (480_000, None),
        (540_000, 60_000),
    ]


def test_seven_plus_twelve_noor_sets_both_as_a_score_is_written(piece: Any) -> None:
    piece.number("Noor", 12, "13:00", rounds=7)
    assert piece.score("Noor").score == "7+12"
    assert piece.score("Noor").total_reps == 7 * 27 + 12


def test_seven_plus_a_whole_round_is_eight_rounds(piece: Any) -> None:
    piece.number("Noor", 27, "13:00", rounds=7)
    assert len(piece.tally("Noor").rounds) == 8
    assert piece.tally("Noor").rounds[7].at == 780_000


def test_a_lower_number_of_full_rounds_takes_the_surplus_away(piece: Any) -> None:
    piece.tap("Noor", "1:00", "2:00", "3:00")
    piece.number("Noor", None, "3:10", rounds=2)
    assert [r.at for r in piece.tally("Noor").rounds] == [60_000, 120_000]


def test_taps_before_go_are_refused(piece: Any) -> None:
    assert decide(piece.sheet, cmd.Tap("Noor"), piece.go - 1) == Refusal(
        "not started yet: counting begins at go"
    )
    assert decide(piece.sheet, cmd.Tap("Noor"), piece.go) == ev.Tapped(piece.go, "Noor")


def test_a_piece_that_is_not_scored_refuses_taps_in_words(rehearsal: Any) -> None:
    warm_up = rehearsal(name="Warm-up", format="countdown", time="8:00")
    assert warm_up.tap("Noor", "1:00") == "Warm-up isn't scored: there is nothing to count"


def test_a_round_that_counts_no_reps_has_no_odd_reps(rehearsal: Any) -> None:
    piece = rehearsal(
        format="rounds-in-time", time="10:00", station=[{"movement": "run", "metres": 200}]
    )
    piece.tap("Noor", "1:00")
    assert piece.number("Noor", 5, "1:30") == "this round counts no reps: n for the round"
    assert piece.score("Noor").score == "1+0"


def test_a_climbing_round_refuses_by_the_size_of_the_round_in_progress(rehearsal: Any) -> None:
    climb = {"movement": "pull-up", "climb": {"first": 4, "step": 4}}
    piece = rehearsal(format="rounds-in-time", time="10:00", station=[climb])
    piece.tap("Noor", "0:30", "1:10")
    assert "12" in piece.number("Noor", 13, "1:20")
    assert piece.number("Noor", 11, "1:30") == ""
    assert piece.tally("Noor").total_reps == 4 + 8 + 11


def test_in_a_piece_scored_by_reps_a_tap_is_one_rep_and_a_number_all_of_them(
    rehearsal: Any,
) -> None:
    piece = rehearsal(format="countdown", time="2:00", score="reps")
    piece.tap("Noor", "0:10")
    assert piece.score("Noor").score == "1 rep"
    piece.tap("Noor", "0:20")
    assert piece.score("Noor").score == "2 reps"
    piece.number("Noor", 31, "2:10")
    assert piece.score("Noor").score == "31 reps"


def test_rounds_are_not_set_in_a_piece_scored_by_reps(rehearsal: Any) -> None:
    piece = rehearsal(format="countdown", time="2:00", score="reps")
    assert "doesn't count rounds" in piece.number("Noor", 12, "0:10", rounds=7)


def test_a_staggered_lanes_round_ends_where_it_began_and_its_odd_reps_count_from_there(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(lane={"Noor": {"start_station": 1}}, **turntable)
    assert piece.tally("Noor").station is None
    piece.number("Noor", 10, "0:50")
    assert piece.tally("Noor").station == 2, "9 presses, then squats"
    piece.tap("Noor", "1:40")
    assert piece.tally("Noor").total_reps == 27


def test_nobody_has_that_key(piece: Any) -> None:
    assert piece.tap("Tuva", "1:00") == "nobody in this piece has that key"
