"""Where a goal's pace would be: by property, and for rounds that grow by hand."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.records.goal_pace import round_due, work_due
from classclock.records.goals import Goal
from classclock.records.result import Terms, finish_worth, rounds_worth
from classclock.tally.lane_tally import LaneTally, Round
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from tests.written_segments import Write

CAP = 960_000
LANE = Lane("noor", "Noor", "n", ("noor",))
STATIONS = [{"movement": "box step-over", "reps": 6}, {"movement": "squat", "reps": 12}]
CLIMBING = [{"movement": "squat", "climb": {"first": 4, "step": 4}}]


def goal(kind: Any, score: str, worth: int) -> Goal:
    return Goal("noor", "depot", "Depot", score, kind, worth, Terms(), "2026-11-01")


def in_rounds(full: int, odd: int = 0) -> Goal:
    return goal("rounds", f"{full}+{odd}", rounds_worth(full, odd))


def after(*reps: int) -> LaneTally:
    """A lane that has done rounds of so many reps."""
    return LaneTally(LANE, rounds=tuple(Round(size, None, None) for size in reps))


@pytest.fixture(scope="session")
def pieces(write: Write) -> dict[str, Piece]:
    made = {
        "even": write("rounds-in-time", time="16:00", station=STATIONS),
        "climbing": write("rounds-in-time", time="16:00", station=CLIMBING),
        "set": write("capped-for-time", cap="16:00", rounds=5, station=STATIONS),
    }
    return {name: Piece.of(segment, "kg") for name, segment in made.items()}


@given(st.integers(1, 40), st.integers(0, 17), st.integers(0, 40))
def test_every_rep_of_a_goal_has_the_same_part_of_the_time(
    pieces: dict[str, Piece], full: int, odd: int, done: int
) -> None:
    due = round_due(in_rounds(full, odd), after(*[18] * done), CAP, pieces["even"])
    wanted = full * 18 + odd
    if done * 18 >= wanted:
        assert due is None  # it is reached: there is nothing to mark
    else:
        assert due == min(CAP, CAP * (done + 1) * 18 // wanted)


def test_rounds_that_grow_are_due_later_and_later(pieces: dict[str, Piece]) -> None:
    """Four rounds of 4, 8, 12 and 16 make 40 reps: a rep every 24 s of 16:00."""
    times = [
        round_due(in_rounds(4), after(*[4, 8, 12][:done]), CAP, pieces["climbing"])
        for done in range(4)
    ]
    assert times == [4 * 24_000, 12 * 24_000, 24 * 24_000, CAP]


def test_a_round_done_under_another_option_keeps_its_size(pieces: dict[str, Piece]) -> None:
    """The first was worth 16: two of the three rounds to come are 18 each, of 52 in all."""
    assert round_due(in_rounds(3), after(16), CAP, pieces["even"]) == CAP * 34 // 52


@given(st.integers(60, 960), st.integers(0, CAP))
def test_of_set_work_as_much_is_due_as_of_the_time(
    pieces: dict[str, Piece], seconds: int, elapsed: int
) -> None:
    aim = goal("time", "8:00", finish_worth(seconds))
    due = work_due(aim, after(), elapsed, CAP, pieces["set"])
    assert due == min(90, 90 * elapsed // (seconds * 1000))


def test_reps_at_the_cap_are_due_by_the_cap(pieces: dict[str, Piece]) -> None:
    aim = goal("time", "60 reps", 60)
    assert work_due(aim, after(), CAP // 2, CAP, pieces["set"]) == 30
    assert work_due(aim, after(), CAP, CAP, pieces["set"]) == 60


def test_who_is_done_or_aims_at_something_else_has_no_mark(pieces: dict[str, Piece]) -> None:
    finished = replace(after(18), finish=100_000)
    stopped = replace(after(18), stopped=100_000)
    time = goal("time", "8:00", finish_worth(480))
    assert work_due(time, finished, 0, CAP, pieces["set"]) is None
    assert work_due(in_rounds(8), after(), 0, CAP, pieces["set"]) is None
    assert round_due(in_rounds(8), stopped, CAP, pieces["even"]) is None
    assert round_due(time, after(), CAP, pieces["even"]) is None
