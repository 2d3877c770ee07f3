"""Scores as they are read, and who is ahead of whom."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import fields

from classclock.tally import commands as cmd
from classclock.tally.scores.lane_score import LaneScore
from classclock.tally.scores.score_parts import whole_seconds
from classclock.tally.scores.scores import scores


def test_the_columns_of_the_results_come_first_and_in_their_order() -> None:
    columns = (
        "rank, athlete, score, rounds, reps, total_reps, time_s, load_kg, modification, status, "
        "best_before, note"
    )
    assert ", ".join(field.name for field in fields(LaneScore)[:12]) == columns


# -- rounds in time ------------------------------------------------------------------


def test_total_reps_decide_in_rounds_in_time(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.number("Ilse", 12, "16:10", rounds=7)
    piece.number("Bram", 3, "16:11", rounds=8)
    piece.number("Noor", 11, "16:12", rounds=7)
    assert piece.ranks() == {"Bram": 1, "Ilse": 2, "Noor": 3}
    assert [s.athlete for s in piece.scores()] == ["Bram", "Ilse", "Noor"]
    assert piece.score("Ilse").status == "scored"


def test_equal_totals_share_a_rank(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.number("Ilse", 12, "16:10", rounds=7)
    piece.number("Bram", 12, "16:11", rounds=7)
    piece.number("Noor", 11, "16:12", rounds=7)
    assert piece.ranks() == {"Ilse": 1, "Bram": 1, "Noor": 3}


def test_a_tie_break_puts_the_earlier_completion_of_the_last_full_round_first(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(**turntable, tie_break=True)
    for name, moment in (("Ilse", "2:00"), ("Bram", "1:59"), ("Noor", "2:00.500")):
        piece.tap(name, moment)
        piece.number(name, 12, "16:10")
    assert piece.ranks() == {"Bram": 1, "Ilse": 2, "Noor": 3}


def test_a_tie_break_is_in_whole_seconds_like_any_result(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable, tie_break=True)
    for name, moment in (("Ilse", "1:59.200"), ("Bram", "1:59.900"), ("Noor", "1:59")):
        piece.tap(name, moment)
        piece.number(name, 12, "16:10")
    assert piece.ranks() == {"Noor": 1, "Ilse": 2, "Bram": 2}


def test_odd_reps_nobody_gave_are_unknown_until_settled_and_ranked_by_what_is_known(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "2:00")
    piece.number("Bram", 1, "2:10", rounds=1)
    assert (piece.score("Noor").score, piece.score("Noor").reps) == ("1+?", None)
    assert (piece.score("Bram").rank, piece.score("Noor").rank) == (1, 2)
    piece.settle("16:30")
    assert (piece.score("Noor").score, piece.score("Noor").reps) == ("1+0", 0)


def test_rounds_that_count_no_reps_are_compared_as_rounds(rehearsal: Any) -> None:
    run = {"movement": "run", "metres": 200}
    piece = rehearsal(format="rounds-in-time", time="10:00", station=[run])
    piece.tap("Noor", "1:00", "2:00")
    piece.tap("Bram", "1:00")
    assert piece.ranks() == {"Noor": 1, "Bram": 2, "Ilse": 3}


# -- capped for time -----------------------------------------------------------------


def test_finishers_by_time_then_those_stopped_by_the_cap_by_reps_more_first(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(names=("Ilse", "Bram", "Noor", "Tuva"), **third_rail)
    piece.number("Ilse", 10, "12:10", rounds=4)
    piece.number("Bram", 11, "12:10", rounds=4)
    piece.do(cmd.FinishNow("Noor"), "11:50")
    piece.do(cmd.FinishNow("Tuva"), "9:10")
    assert piece.ranks() == {"Tuva": 1, "Noor": 2, "Bram": 3, "Ilse": 4}
    assert (piece.score("Bram").score, piece.score("Bram").status) == ("111 reps", "capped")
    assert piece.score("Bram").time_s is None


@pytest.mark.parametrize(
    ("ms", "seconds"),
    [
        (7_784_300, 7785),  # 2:09:44.3 becomes 2:09:45
        (7_784_320, 7785),  # 2:09:44.32 becomes 2:09:45
        (300_000, 300),
        (300_001, 301),
        (512_200 - 212_200, 300),  # in floats 300.00000000000006
    ],
)
def test_a_result_is_rounded_up_to_the_next_whole_second(ms: int, seconds: int) -> None:
    """World Athletics technical rules, hand times outside the stadium; USATF rule 165."""
    assert whole_seconds(ms) == seconds


def test_equal_seconds_share_a_rank(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(**third_rail)
    piece.do(cmd.FinishNow("Ilse"), "5:00.001")
    piece.do(cmd.FinishNow("Bram"), "5:00.999")
    piece.do(cmd.FinishNow("Noor"), "5:00")
    assert piece.ranks() == {"Noor": 1, "Ilse": 2, "Bram": 2}
    assert piece.score("Bram").score == "5:01"


def test_an_hours_result_is_written_with_hours(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(**{**third_rail, "cap": "1:30:00"})
    piece.do(cmd.FinishNow("Noor"), "1:00:00.5")
    assert piece.score("Noor").score == "1:00:01"


def test_splits_in_whole_seconds_add_up_to_the_finish(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(**third_rail)
    piece.tap("Noor", "1:00.3", "2:00.7", "3:01.1", "4:01.5", "5:02.9")
    score = piece.score("Noor")
    assert sum(score.splits) == score.time_s == 303


# -- intervals, loads, reps ----------------------------------------------------------


@pytest.mark.parametrize(
    ("rule", "score", "ranks"),
    [
        ("total", "84 reps", {"Ilse": 1, "Noor": 2}),
        ("lowest", "7 reps", {"Noor": 1, "Ilse": 2}),
        ("best", "14 reps", {"Ilse": 1, "Noor": 2}),
    ],
)
def test_an_interval_piece_is_scored_by_the_plans_rule(
    rehearsal: Any, headway: Any, rule: str, score: str, ranks: dict[str, int]
) -> None:
    piece = rehearsal(names=("Ilse", "Noor"), **{**headway, "score": rule})
    for interval, reps in enumerate((14, 13, 12, 11, 10, 9, 8, 7), start=1):
        piece.number("Ilse", reps, "4:00", interval=interval)
        piece.number("Noor", 10, "4:00", interval=interval)
    assert piece.score("Ilse").score == score
    assert piece.ranks() == ranks


def test_the_heaviest_made_is_first_and_equal_loads_share_a_rank(rehearsal: Any) -> None:
    piece = rehearsal(format="countdown", time="12:00", score="load")
    for name, load in (("Ilse", "60"), ("Bram", "82.5"), ("Noor", "82.5")):
        piece.do(cmd.SetNumber(name, Decimal(load)), "3:00")
    assert piece.ranks() == {"Bram": 1, "Noor": 1, "Ilse": 3}
    assert piece.score("Ilse").total_reps is None


# -- who is ranked with whom ---------------------------------------------------------


def test_a_lane_that_stopped_early_keeps_its_tally_unranked_and_marked(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(**turntable)
    piece.number("Noor", 12, "9:00", rounds=7)
    piece.do(cmd.StopLane("Noor"), "9:01")
    piece.tap("Bram", "2:00")
    score = piece.score("Noor")
    assert (score.rank, score.score, score.status) == (None, "7+12", "stopped")
    assert score.note == "stopped at 9:01"
    assert piece.scores()[-1].athlete == "Noor"
    assert piece.score("Bram").rank == 1


def test_all_lanes_rank_together_modified_or_not(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(lane={"Bram": {"options": (2,)}}, **turntable)
    piece.number("Ilse", 1, "16:00", rounds=3)
    piece.number("Bram", 1, "16:00", rounds=5)
    piece.number("Noor", 1, "16:00", rounds=4)
    assert piece.ranks() == {"Bram": 1, "Noor": 2, "Ilse": 3}


def test_separate_ranks_modified_lanes_apart_as_written_first(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(lane={"Bram": {"options": (2,)}}, **turntable, separate=True)
    piece.number("Ilse", 1, "16:00", rounds=3)
    piece.number("Bram", 1, "16:00", rounds=5)
    piece.number("Noor", 1, "16:00", rounds=4)
    assert piece.ranks() == {"Noor": 1, "Ilse": 2, "Bram": 1}
    assert [s.athlete for s in piece.scores()] == ["Noor", "Ilse", "Bram"]


def test_all_heats_of_a_piece_rank_together(rehearsal: Any, turntable: Any) -> None:
    first, second = rehearsal(names=("Ilse",), **turntable), rehearsal(names=("Bram",), **turntable)
    first.number("Ilse", 1, "16:00", rounds=3)
    second.number("Bram", 1, "16:00", rounds=4)
    both = scores([first.sheet, second.sheet], now=None, settled=True)
    assert [(s.athlete, s.rank) for s in both] == [("Bram", 1), ("Ilse", 2)]


def test_a_provisional_score_is_never_called_a_best(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.number("Noor", 12, "16:05", rounds=7)
    assert all(score.best_before is None for score in piece.scores())


def test_while_the_piece_runs_nobody_is_capped_yet(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(**third_rail)
    piece.tap("Noor", "1:00")
    going = scores([piece.sheet], now=piece.at("2:00"), settled=False)
    assert {score.status for score in going} == {"going"}
    over = scores([piece.sheet], now=piece.at("12:00"), settled=False)
    assert {score.status for score in over} == {"capped"}


@settings(max_examples=40)
@given(
    numbers=st.lists(st.tuples(st.integers(0, 4), st.integers(0, 26)), min_size=4, max_size=4),
    order=st.permutations(("Ilse", "Bram", "Noor", "Tuva")),
)
def test_the_order_of_the_lanes_changes_no_rank(
    rehearsal: Any, turntable: Any, numbers: list[tuple[int, int]], order: list[str]
) -> None:
    by_name = dict(zip(("Ilse", "Bram", "Noor", "Tuva"), numbers, strict=True))
    ranked = []
    for names in (tuple(by_name), tuple(order)):
        piece = rehearsal(names=names, **turntable)
        for name, (full, odd) in by_name.items():
            piece.number(name, odd, "16:05", rounds=full)
        ranked.append(piece.ranks())
    assert ranked[0] == ranked[1]
