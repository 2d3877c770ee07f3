"""Bests, in the words that a coach says them in."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.records.bests import (
    best_of,
    bests,
    earlier_run,
    in_one_line,
    margin,
    standing,
)
from classclock.records.class_entries import read_class
from classclock.records.result import (
    Result,
    Terms,
    finish_of,
    finish_worth,
    rounds_worth,
)
from classclock.records.written_terms import NOT_SAID
from classclock.tally.scores.on_for import earlier_work
from classclock.units.times import parse_time


@pytest.fixture
def did(depot: Any) -> Any:
    def make(day: str, lane: dict[str, Any], piece: str = "turntable", **more: Any) -> Result:
        document = depot.document(day, getattr(depot, piece)(lane, **more))
        return read_class(document).entries[0].result

    return make


def test_more_reps_are_a_new_best_by_how_much_and_since_when(did: Any, depot: Any) -> None:
    before = did("2026-10-02", depot.rounds("Ilse", 7, 12))
    now = did("2026-11-24", depot.rounds("Ilse", 8, 3))
    assert standing(now, [before, now]).words() == (
        "new best: 18 reps more than 7+12 of 2 October 2026"
    )


def test_less_time_is_a_new_best(did: Any, depot: Any) -> None:
    before = did("2026-10-02", depot.timed("Ilse", "8:31"), "third_rail")
    now = did("2026-11-24", depot.timed("Ilse", "8:19"), "third_rail")
    assert standing(now, [before]).words() == "new best: 0:12 better than 8:31 of 2 October 2026"


def test_to_finish_is_better_than_any_reps_at_the_cap(did: Any, depot: Any) -> None:
    before = did("2026-10-02", depot.timed("Ilse", "70 reps"), "third_rail")
    now = did("2026-11-24", depot.timed("Ilse", "11:58"), "third_rail")
    assert standing(now, [before]).words() == "new best, after 70 reps of 2 October 2026"


def test_a_heavier_load_is_a_new_best_in_the_unit_it_was_lifted_in(did: Any, depot: Any) -> None:
    before = did("2026-10-02", depot.lifted("Ilse", "185 lb"), "squats")
    now = did("2026-11-24", depot.lifted("Ilse", "190 lb"), "squats")
    metric = did("2026-11-25", depot.lifted("Ilse", "90 kg"), "squats")
    assert standing(now, [before]).words() == (
        "new best: 5 lb heavier than 185 lb of 2 October 2026"
    )
    # 90 kg - 190 lb x 0.45359237 kg (NIST SP 811) = 3.81744970 kg
    assert margin(metric, now) == "3.8 kg"


def test_the_first_time_equal_and_below_are_said_so(did: Any, depot: Any) -> None:
    first = did("2026-10-02", depot.rounds("Ilse", 7, 12))
    equal = did("2026-11-24", depot.rounds("Ilse", 7, 12))
    below = did("2026-11-25", depot.rounds("Ilse", 7, 1))
    every = [first, equal, below]
    assert standing(first, every).words() == "first time"
    assert standing(equal, every).words() == "equals the best, 7+12 of 2 October 2026"
    assert standing(below, every).words() == "best 7+12 of 2 October 2026"
    assert standing(below, every).by == "11 reps"


def test_a_best_stands_since_it_was_first_reached(did: Any, depot: Any) -> None:
    every = [did(day, depot.rounds("Ilse", 7, 12)) for day in ("2026-10-09", "2026-10-02")]
    best = best_of(every)
    assert best is not None
    assert best.day == "2026-10-02"


def test_another_option_is_named_not_compared(did: Any, depot: Any) -> None:
    modified = did("2026-10-02", depot.rounds("Ilse", 9, 0, modification="step-up"))
    now = did("2026-11-24", depot.rounds("Ilse", 7, 12))
    found = standing(now, [modified])
    assert found.verdict == "first"
    assert found.words() == "first time this way; 9+0 with step-up; 16:00"


def test_another_load_is_named_not_compared(did: Any, depot: Any) -> None:
    lighter = did("2026-10-02", depot.rounds("Ilse", 9, 0, loads=["15 kg"]))
    now = did("2026-11-24", depot.rounds("Ilse", 7, 12, loads=["22.5 kg"]))
    assert standing(now, [lighter]).verdict == "first"


def test_another_length_of_the_piece_is_named_not_compared(did: Any, depot: Any) -> None:
    short = did("2026-10-02", depot.rounds("Ilse", 5, 0), length_s=720)
    now = did("2026-11-24", depot.rounds("Ilse", 7, 12))
    assert standing(now, [short]).verdict == "first"


def test_a_time_for_finished_work_compares_with_any_cap(did: Any, depot: Any) -> None:
    earlier = did("2026-10-02", depot.timed("Ilse", "8:31"), "third_rail")
    fitted = {"length_s": 600, "planned_s": 720}
    now = did("2026-11-24", depot.timed("Ilse", "8:19"), "third_rail", **fitted)
    assert standing(now, [earlier]).words() == ("new best: 0:12 better than 8:31 of 2 October 2026")
    slower = did("2026-11-24", depot.timed("Ilse", "9:02"), "third_rail", **fitted)
    assert standing(slower, [earlier]).words() == "best 8:31 of 2 October 2026"


def test_what_a_cap_cut_off_compares_with_its_own_length_only(did: Any, depot: Any) -> None:
    earlier = did("2026-10-02", depot.timed("Ilse", "70 reps"), "third_rail")
    fitted = {"length_s": 600, "planned_s": 720}
    now = did("2026-11-24", depot.timed("Ilse", "64 reps"), "third_rail", **fitted)
    again = did("2026-12-01", depot.timed("Ilse", "66 reps"), "third_rail", **fitted)
    assert standing(now, [earlier]).words() == (
        "first time this way; 70 reps with as written; 12:00"
    )
    assert standing(again, [earlier, now]).verdict == "best"


@pytest.mark.parametrize(
    ("time", "verdict"), [("9:59", "below"), ("10:00", "below"), ("10:01", "first")]
)
def test_a_finish_is_better_than_what_another_cap_cut_off_if_it_came_by_then(
    did: Any, depot: Any, time: str, verdict: str
) -> None:
    """After 10:01 nobody knows how far the two were when the cap of 10:00 came."""
    finished = did("2026-10-02", depot.timed("Ilse", time), "third_rail")
    cut_off = did("2026-11-24", depot.timed("Ilse", "64 reps"), "third_rail", length_s=600)
    assert standing(cut_off, [finished]).verdict == verdict
    assert finished.compares(cut_off) == cut_off.compares(finished) == (verdict == "below")


def test_other_terms_stay_apart_whatever_was_finished(did: Any, depot: Any) -> None:
    earlier = did("2026-10-02", depot.timed("Ilse", "8:31", modification="row"), "third_rail")
    now = did("2026-11-24", depot.timed("Ilse", "8:19"), "third_rail", length_s=600)
    assert standing(now, [earlier]).verdict == "first"


def test_a_length_that_no_clock_writes_compares_with_itself_alone(did: Any, depot: Any) -> None:
    """Old spreadsheets say it in words of their own."""
    finished = did("2026-10-02", depot.timed("Ilse", "8:31"), "third_rail")
    cut_off = did("2026-11-24", depot.timed("Ilse", "64 reps"), "third_rail")
    written = replace(cut_off, terms=replace(cut_off.terms, work="a quarter"))
    assert not finished.compares(written)
    assert written.compares(written)


def test_what_nobody_said_is_taken_to_be_the_same(did: Any, depot: Any) -> None:
    unsaid = did("2026-10-02", depot.rounds("Ilse", 7, 0, loads=["?"]))
    now = did("2026-11-24", depot.rounds("Ilse", 7, 12, loads=["22.5 kg"]))
    assert standing(now, [unsaid]).verdict == "best"


@pytest.mark.parametrize("more", [{"late": True}, {"status": "stopped", "rank": None}])
def test_a_late_or_stopped_score_is_never_a_best(
    did: Any, depot: Any, more: dict[str, Any]
) -> None:
    before = did("2026-10-02", depot.rounds("Ilse", 9, 0, **more))
    now = did("2026-11-24", depot.rounds("Ilse", 7, 12))
    assert standing(now, [before]).verdict == "first"
    assert standing(replace(before, moment=now.moment + 1), [now]).verdict == "not compared"


def test_a_provisional_score_is_never_a_best(did: Any, depot: Any) -> None:
    before = did("2026-10-02", depot.rounds("Ilse", 9, 0), status="provisional")
    now = did("2026-11-24", depot.rounds("Ilse", 7, 12))
    assert standing(now, [before]).verdict == "first"
    assert standing(before, []).words() == "not compared: provisional"


def test_only_what_was_earlier_is_looked_at(did: Any, depot: Any) -> None:
    later = did("2026-12-02", depot.rounds("Ilse", 9, 0))
    now = did("2026-11-24", depot.rounds("Ilse", 7, 12))
    assert standing(now, [later, now]).verdict == "first"


def test_an_earlier_run_gives_the_reps_at_any_moment(did: Any, depot: Any) -> None:
    run = earlier_run(did("2026-10-02", depot.rounds("Ilse", 7, 12, each=120)))
    assert run is not None
    assert run.marks[:2] == ((120_000, 27), (240_000, 54))
    assert run.total == 7 * 27 + 12
    # Even between marks: half of the second round's 27 reps at 3:00.
    assert earlier_work(run, 180_000, 960_000) == 40.5


def test_a_round_whose_moment_is_not_known_ends_the_shape(did: Any, depot: Any) -> None:
    result = replace(did("2026-10-02", depot.rounds("Ilse", 3)), splits=(60, None, 60))
    run = earlier_run(result)
    assert run is not None
    assert run.marks == ((60_000, 27),)
    assert earlier_run(replace(result, splits=(None, 60, 60))) is None
    assert earlier_run(replace(result, splits=(-40, 100))) is None, "as files of before have it"


# -- any results at all ------------------------------------------------------------

TERMS = st.sampled_from(
    [
        Terms("", "", "16:00"),
        Terms("", "", "10:00"),
        Terms("", "", NOT_SAID),
        Terms("step-up", "", "16:00"),
        Terms("", "15 kg", "16:00"),
        Terms("", NOT_SAID, "16:00"),
    ]
)


@st.composite
def any_result(draw: st.DrawFn) -> Result:
    terms = draw(TERMS)
    if draw(st.booleans()):
        # Nobody finishes after the cap.
        cap = 900 if terms.work == NOT_SAID else parse_time(terms.work) // 1000
        worth, score = finish_worth(seconds := draw(st.integers(60, cap))), f"{seconds}"
    else:
        rounds, odd = draw(st.integers(0, 9)), draw(st.integers(0, 26))
        worth, score = rounds_worth(rounds, odd), f"{rounds}+{odd}"
    why_not = draw(st.sampled_from(["", "", "", "came late"]))
    moment = draw(st.integers(0, 10_000))
    return Result(
        "ilse", "P", "p", "2026-10-02", moment, score, "time", worth, None, terms, why_not
    )


def told_apart(one: Result, other: Result) -> bool:
    """Whether it can be told which is better, said once more and otherwise."""
    if one.terms.equal(other.terms):
        return True
    if not one.terms.equal(other.terms, any_length=True):
        return False
    seconds = [finish_of(each.worth or 0) for each in (one, other)]
    caps = [
        0 if each.terms.work == NOT_SAID else parse_time(each.terms.work) // 1000
        for each in (one, other)
    ]
    match seconds:
        case [None, None]:
            return False
        case [int(finish), None]:
            return finish <= caps[1]
        case [None, int(finish)]:
            return finish <= caps[0]
    return True


@given(st.lists(any_result(), max_size=12), any_result())
def test_a_new_best_beats_every_earlier_score_of_equal_terms_and_nothing_else_matters(
    earlier: list[Result], now: Result
) -> None:
    comparable = [
        one.worth or 0
        for one in earlier
        if one.why_not == "" and one.moment < now.moment and told_apart(one, now)
    ]
    found = standing(now, earlier)
    if now.why_not:
        assert found.verdict == "not compared"
    elif not comparable:
        assert found.verdict == "first"
    else:
        most = max(comparable)
        wanted = "best" if (now.worth or 0) > most else "equal" if now.worth == most else "below"
        assert found.verdict == wanted


@given(st.lists(any_result(), max_size=12))
def test_there_is_one_best_for_each_set_of_terms(results: list[Result]) -> None:
    found = bests(results)
    counting = [one for one in results if not one.why_not]
    assert len({one.terms for one in found}) == len(found)
    for best in found:
        assert all(
            (one.worth or 0) <= (best.worth or 0) for one in counting if in_one_line(one, best)
        )
    for one in counting:
        assert any(in_one_line(one, best) for best in found)
