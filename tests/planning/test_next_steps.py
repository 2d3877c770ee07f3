"""Whom the coach may offer the next option. The numbers are common practice, no source."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.plan.station import Option, Station
from classclock.planning.next_steps import FAR, LIKE, NextStep, Used, next_step

STATION = Station(
    movement="box step-over",
    reps=6,
    options=(Option(name="lower box"), Option(name="step-up"), Option(name="step over a line")),
)
AS_WRITTEN, LOWER_BOX, STEP_UP, LINE = range(4)
ENOUGH = 5
OTHERS = (180.0, 200.0, 230.0)
"""The middle one did 200 reps: like theirs is 180 or more, far behind less than 120."""


def used(*paces: float) -> tuple[Used, ...]:
    return tuple(Used(pace, OTHERS) for pace in paces)


def test_five_scores_like_the_others_are_enough_for_the_next_one_up() -> None:
    five = used(200, 180, 190, 240, 181)
    assert next_step(STATION, STEP_UP, five, ENOUGH) == NextStep(STEP_UP, 5, LOWER_BOX, up=True)
    assert next_step(STATION, STEP_UP, five[1:], ENOUGH) is None
    six = (*five, *used(185))
    assert next_step(STATION, STEP_UP, six, ENOUGH) == NextStep(STEP_UP, 6, LOWER_BOX, up=True)
    nearest = next_step(STATION, LOWER_BOX, five, ENOUGH)
    assert nearest == NextStep(LOWER_BOX, 5, AS_WRITTEN, up=True)


def test_it_is_the_latest_ones_that_count() -> None:
    assert next_step(STATION, STEP_UP, used(179, *[200] * 9), ENOUGH) is None


def test_twice_far_behind_is_the_one_below() -> None:
    behind = used(119, 100, 200, 200, 200, 200, 200)
    assert next_step(STATION, LOWER_BOX, behind, ENOUGH) == NextStep(
        LOWER_BOX, 2, STEP_UP, up=False
    )
    assert next_step(STATION, LOWER_BOX, behind[1:], ENOUGH) is None
    written = next_step(STATION, AS_WRITTEN, behind, ENOUGH)
    assert written == NextStep(AS_WRITTEN, 2, LOWER_BOX, up=False)
    assert next_step(STATION, LINE, behind, ENOUGH) is None  # nothing is farther


def test_a_class_with_too_few_others_tells_nothing() -> None:
    alone = tuple(Used(200, OTHERS[:2]) for _ in range(9))
    assert next_step(STATION, STEP_UP, alone, ENOUGH) is None
    between = (*alone[:3], *used(*[200] * 5))
    assert next_step(STATION, STEP_UP, between, ENOUGH) is not None


@pytest.mark.parametrize("paces", [[200] * 9, [50] * 9])
def test_0_names_nobody(paces: list[float]) -> None:
    assert next_step(STATION, STEP_UP, used(*paces), 0) is None


PACES = st.lists(st.floats(1, 400), max_size=12)


@settings(max_examples=80)
@given(PACES, st.integers(1, 12), st.integers(AS_WRITTEN, LINE))
def test_a_step_is_one_step_and_as_written_has_none_above(
    paces: list[float], enough: int, option: int
) -> None:
    step = next_step(STATION, option, used(*paces), enough)
    if step is None:
        return
    assert step.to == option + (-1 if step.up else 1)
    latest = [pace / 200 for pace in paces[: step.times]]
    assert all(one >= LIKE for one in latest) if step.up else all(one < FAR for one in latest)
    assert step.times >= (enough if step.up else 2)


@settings(max_examples=80)
@given(PACES, st.integers(1, 5), st.floats(1, 3))
def test_whoever_is_quicker_is_never_offered_less(
    paces: list[float], enough: int, times: float
) -> None:
    before = next_step(STATION, STEP_UP, used(*paces), enough)
    after = next_step(STATION, STEP_UP, used(*(pace * times for pace in paces)), enough)
    if before is not None and before.up:
        assert after is not None
        assert after.up
