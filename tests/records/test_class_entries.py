from typing import Any

import pytest

from classclock.records.class_entries import read_class
from classclock.records.document import ResultsDocument
from classclock.records.result import finish_of


def results_of(document: ResultsDocument) -> dict[str, Any]:
    return {entry.result.athlete: entry.result for entry in read_class(document).entries}


def test_more_rounds_and_then_more_odd_reps_are_worth_more(depot: Any) -> None:
    lanes = [depot.rounds("Ilse", 7, 26), depot.rounds("Bram", 8, 0), depot.rounds("Noor", 8, 1)]
    results = results_of(depot.document("2026-11-03", depot.turntable(*lanes)))
    assert results["ilse"].worth < results["bram"].worth < results["noor"].worth


def test_less_time_is_worth_more_and_any_finish_more_than_work_left(depot: Any) -> None:
    lanes = [
        depot.timed("Ilse", "8:31"),
        depot.timed("Bram", "11:59"),
        depot.timed("Noor", "71 reps"),
    ]
    results = results_of(depot.document("2026-11-03", depot.third_rail(*lanes)))
    assert results["ilse"].worth > results["bram"].worth > results["noor"].worth
    assert finish_of(results["ilse"].worth) == 511
    assert finish_of(results["noor"].worth) is None


def test_a_lift_is_compared_by_its_name_and_the_reps_of_the_set(depot: Any) -> None:
    lanes = [depot.lifted("Ilse", "60 kg", "70 kg", "/80 kg"), depot.lifted("Bram", "135 lb")]
    results = results_of(depot.document("2026-11-03", depot.squats(*lanes)))
    assert results["ilse"].benchmark == "front squat"
    assert results["ilse"].terms.work == "3 reps"
    assert results["bram"].terms.work == "5 reps"
    # The pound of 1959, 0.45359237 kg (NIST SP 811): 135 lb are 61.23496995 kg exactly.
    assert results["bram"].worth == 6_123_496_995


def test_every_load_tried_is_kept_made_or_missed(depot: Any) -> None:
    lane = depot.lifted("Ilse", "60 kg", "70 kg", "/80 kg")
    (entry,) = read_class(depot.document("2026-11-03", depot.squats(lane))).entries
    assert [(lift.load, lift.reps, lift.made) for lift in entry.lifts] == [
        ("60 kg", 5, True),
        ("70 kg", 3, True),
        ("80 kg", 1, False),
    ]


@pytest.mark.parametrize(
    ("more", "piece", "why"),
    [
        ({"late": True}, {}, "came late"),
        ({"status": "stopped", "rank": None}, {}, "stopped early"),
        ({"option_changed_s": 300}, {}, "option changed in the middle"),
        ({}, {"status": "provisional"}, "provisional"),
    ],
)
def test_what_can_be_no_best_says_why(
    depot: Any, more: dict[str, Any], piece: dict[str, Any], why: str
) -> None:
    document = depot.document(
        "2026-11-03", depot.turntable(depot.rounds("Ilse", 7, 12, **more), **piece)
    )
    result = results_of(document)["ilse"]
    assert (result.why_not, result.counts) == (why, False)


def test_unknown_odd_reps_are_no_score_to_compare(depot: Any) -> None:
    document = depot.document("2026-11-03", depot.turntable(depot.rounds("Ilse", 7, None)))
    assert not results_of(document)["ilse"].counts


def test_a_pairs_score_is_each_ones_and_compared_with_pairs_only(depot: Any) -> None:
    document = depot.document("2026-11-03", depot.turntable(depot.rounds("Ilse + Bram", 7)))
    results = results_of(document)
    assert set(results) == {"ilse", "bram"}
    assert results["ilse"].terms.team == 2


def test_a_load_that_nobody_chose_is_not_said(depot: Any) -> None:
    lane = depot.rounds("Ilse", 7, loads=["?", "20 kg"])
    terms = results_of(depot.document("2026-11-03", depot.turntable(lane)))["ilse"].terms
    assert str(terms) == "as written; load not said; 16:00"
