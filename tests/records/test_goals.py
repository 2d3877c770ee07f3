"""Goals: reached or not, beside which scores, and how far; worked out by hand and by property."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.records.class_entries import read_class, sets_of
from classclock.records.goals import Goal, goal_stands, round_size, to_go
from classclock.records.result import (
    Result,
    Terms,
    finish_worth,
    load_worth,
    rounds_worth,
)
from classclock.units.times import show_time

SINCE, LATER = "2026-11-01", "2026-11-24"
kilograms = st.integers(1, 400).map(lambda halves: Decimal(halves) / 2)


def result(kind: Any, score: str, worth: int, **terms: Any) -> Result:
    made = Terms(**{"work": "16:00", **terms})
    return Result("noor", "Piece", "piece", LATER, 1, score, kind, worth, None, made)


def goal(like: Result, **more: Any) -> Goal:
    made = Goal("noor", "piece", "Piece", like.score, like.kind, like.worth or 0, like.terms, SINCE)
    return replace(made, **more)


def rounds(full: int, odd: int = 0, **terms: Any) -> Result:
    return result("rounds", f"{full}+{odd}", rounds_worth(full, odd), **terms)


def time(seconds: int, **terms: Any) -> Result:
    return result("time", show_time(seconds * 1000), finish_worth(seconds), **terms)


def at_the_cap(reps: int, **terms: Any) -> Result:
    return result("time", f"{reps} reps", reps, **terms)


def load(kg: Decimal, reps: int = 1, **terms: Any) -> Result:
    return result("load", f"{kg} kg", load_worth(kg), work=f"{reps} reps", **terms)


@given(
    st.tuples(st.integers(0, 30), st.integers(0, 50)),
    st.tuples(st.integers(0, 30), st.integers(0, 50)),
)
def test_rounds_decide_and_then_odd_reps(wanted: tuple[int, int], made: tuple[int, int]) -> None:
    assert goal(rounds(*wanted)).reached_by(rounds(*made)) == (made >= wanted)


@given(st.integers(5, 900), st.integers(5, 900))
def test_less_time_reaches_it(wanted: int, made: int) -> None:
    assert goal(time(wanted)).reached_by(time(made)) == (made <= wanted)


@given(st.integers(5, 900), st.integers(0, 900))
def test_work_left_at_a_cap_reaches_no_time(wanted: int, reps: int) -> None:
    assert not goal(time(wanted)).reached_by(at_the_cap(reps))


@given(st.integers(1, 900), st.integers(5, 900), st.integers(1, 900))
def test_reps_at_the_cap_are_reached_by_more_or_by_a_finish_before_it(
    wanted: int, seconds: int, reps: int
) -> None:
    aim = goal(at_the_cap(wanted))
    assert aim.reached_by(at_the_cap(reps)) == (reps >= wanted)
    assert aim.reached_by(time(seconds))


@given(kilograms, kilograms, st.integers(1, 10), st.integers(1, 10))
def test_a_load_is_reached_by_one_at_least_as_heavy_as_often(
    wanted: Decimal, made: Decimal, wanted_reps: int, reps: int
) -> None:
    aim = goal(load(wanted, wanted_reps))
    assert aim.reached_by(load(made, reps)) == (made >= wanted and reps >= wanted_reps)


@given(
    st.sampled_from([rounds(30), time(5), load(Decimal(200), 10)]),
    st.sampled_from(["", "step-up", "lower box"]),
    st.sampled_from(["", "step-up", "Step-Up", "lower box"]),
)
def test_options_never_compare_with_as_written(made: Result, wanted: str, used: str) -> None:
    aim = goal(replace(made, terms=replace(made.terms, modification=wanted)))
    otherwise = replace(made, terms=replace(made.terms, modification=used))
    assert aim.met_by(otherwise) == (wanted == used.casefold())


@pytest.mark.parametrize(
    ("day", "until", "reached"),
    [
        ("2026-10-31", "", False),  # before it was set
        ("2026-11-01", "", True),
        ("2027-11-01", "", True),  # late is reached too
        ("2026-11-20", "2026-11-20", True),
        ("2026-11-21", "2026-11-20", False),  # it was dropped by then
    ],
)
def test_only_while_it_stands(day: str, until: str, reached: bool) -> None:  # noqa: FBT001
    aim = goal(rounds(8), until=until)
    assert aim.reached_by(replace(rounds(9), day=day)) == reached


@pytest.mark.parametrize(
    "made",
    [
        rounds(9, work="12:00"),  # of a piece cut short
        rounds(9, work="20:00"),
        rounds(9, loads="15 kg"),
        rounds(9, team=2),
        replace(rounds(9), why_not="came late"),
        replace(rounds(9), benchmark="another"),
    ],
)
def test_made_otherwise_it_comes_no_nearer(made: Result) -> None:
    stands = goal_stands(goal(rounds(8, loads="22.5 kg")), [made])
    assert (stands.best, stands.reached) == (None, None)
    assert stands.far_words() == "not done so yet"


def test_the_first_that_reached_it_is_named(depot: Any) -> None:
    days = {"2026-10-02": 9, "2026-11-10": 7, "2026-11-17": 8, "2026-11-24": 9}
    done = [
        read_class(depot.document(day, depot.turntable(depot.rounds("Noor", full))))
        .entries[0]
        .result
        for day, full in days.items()
    ]
    aim = replace(goal(rounds(8)), benchmark="turntable")
    stands = goal_stands(aim, done)
    assert stands.far_words() == "reached on 17 November 2026 with 8+0"
    assert stands.best is done[0]


@pytest.mark.parametrize(
    ("wanted", "words"),
    [
        (rounds(14), "1 round to go"),  # whatever a round is worth
        (rounds(15, 5), "2 rounds and 5 reps to go"),
    ],
)
def test_how_far_it_is_in_rounds(depot: Any, wanted: Result, words: str) -> None:
    made = depot.document("2026-11-10", depot.turntable(depot.rounds("Noor", 13)))
    best = read_class(made).entries[0].result
    stands = goal_stands(replace(goal(wanted), benchmark="turntable"), [best])
    assert stands.far_words() == f"{words}, best 13+0 of 10 November 2026"


def test_less_than_a_round_is_told_by_the_scores_own_size(depot: Any) -> None:
    """Of one score alone nobody knows whether rounds grow; two tell that each is 27 reps."""

    def made(full: int, odd: int) -> Result:
        lane = depot.rounds("Noor", full, odd)
        return read_class(depot.document("2026-11-10", depot.turntable(lane))).entries[0].result

    aim = replace(goal(rounds(14)), benchmark="turntable")
    one, other, grown = made(12, 3), made(11, 20), replace(made(11, 20), total_reps=300)
    assert to_go(aim, one) == "less than 2 rounds"
    assert (round_size([one]), round_size([one, other]), round_size([one, grown])) == (
        *(None, 27, None),
    )
    assert "1 round and 24 reps to go" in goal_stands(aim, [other, one]).far_words()


def test_how_far_it_is_otherwise() -> None:
    assert to_go(goal(time(480)), time(511)) == "0:31"
    assert to_go(goal(load(Decimal(85))), load(Decimal("82.5"))) == "2.5 kg"
    assert to_go(goal(at_the_cap(112)), at_the_cap(100)) == ""  # no total of all reps is known
    assert to_go(goal(rounds(8)), rounds(9)) == ""


def test_a_lighter_set_of_more_reps_is_looked_at_too(depot: Any) -> None:
    """In sets of 5, 3 and 1 the score is the single, and 75 kg were made three times."""
    lane = depot.lifted("Noor", "60 kg", "75 kg", "90 kg")
    entry = read_class(depot.document("2026-11-10", depot.squats(lane))).entries[0]
    aim = replace(goal(load(Decimal(75), 3)), benchmark="front squat")
    assert not aim.reached_by(entry.result)
    assert goal_stands(aim, sets_of(entry)).reached is not None
    assert not any(map(replace(aim, worth=load_worth(Decimal(76))).reached_by, sets_of(entry)))
