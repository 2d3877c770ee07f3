"""Effort minutes, monotony and strain, beside numpy and beside weeks worked out by hand.

Foster et al., J Strength Cond Res 15 (2001) 109, print an example of a week. We hadn't it at hand
and don't remember its figures, so none of these weeks is theirs: they are made to come out even.
What is from print is one monotony, of volume load, with its mean and deviation.
"""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.records.effort_weeks import (
    ClassFelt,
    EffortWeek,
    effort_weeks,
    monotony,
)

MONDAY = date(2026, 11, 23)
AN_HOUR = 3600
"""In seconds: an effort of 5 is 300 effort minutes."""
loads = st.lists(st.integers(0, 3_000), min_size=7, max_size=7)


def felt(day: date, effort: int | None = 5, here_s: int | None = AN_HOUR) -> ClassFelt:
    return ClassFelt("room/class", "room/ilse", day.isoformat(), "Depot", effort, here_s)


def week(*days: int | None, over: bool = True) -> EffortWeek:
    return EffortWeek(MONDAY, days, sum(day != 0 for day in days), over)


@pytest.mark.parametrize(
    ("effort", "here_s", "minutes"),
    [(7, 55 * 60, 385), (0, 3600, 0), (10, 3600, 600), (5, 3005, 250), (7, 3005, 351)],
)
def test_effort_minutes_are_the_number_times_the_minutes_of_the_class(
    effort: int, here_s: int, minutes: int
) -> None:
    assert felt(MONDAY, effort, here_s).effort_minutes == minutes


@pytest.mark.parametrize(
    ("days", "total", "even", "strain"),
    [
        # Mean 300, squares 6 x 100^2, over 6: a deviation of 100.
        ((400, 200, 400, 200, 400, 200, 300), 2100, 3.0, 6300.0),
        # Mean 120, squares 3 x 160^2 + 4 x 120^2 = 134,400, over 6: 22,400; 120^2 is 9/14 of it.
        ((280, 0, 280, 0, 280, 0, 0), 840, (9 / 14) ** 0.5, 840 * (9 / 14) ** 0.5),
        # Efforts of 7 for an hour on three days: mean 180, squares 3 x 240^2 + 4 x 180^2 = 302,400,
        # over 6: 50,400, of which the root is 224.5.
        ((420, 0, 420, 0, 420, 0, 0), 1260, 180 / 50_400**0.5, 1260 * 180 / 50_400**0.5),
        # One class: mean 60, squares 360^2 + 6 x 60^2 = 6 x 25,200.
        ((0, 420, 0, 0, 0, 0, 0), 420, 60 / 25_200**0.5, 420 * 60 / 25_200**0.5),
    ],
)
def test_a_week_by_hand(days: tuple[int, ...], total: int, even: float, strain: float) -> None:
    one = week(*days)
    assert one.effort_minutes == total
    assert one.monotony == pytest.approx(even)
    assert one.strain == pytest.approx(strain)


def test_a_printed_monotony() -> None:
    """Mean 790 kg, deviation 897 kg: 0.88 (a table of training variables, BMJ Military Health)."""
    days = (1749, 71, 1749, 71, 1749, 71, 71)  # such a week: theirs isn't printed day by day
    assert (round(np.mean(days)), round(np.std(days, ddof=1))) == (790, 897)
    assert monotony(days) == pytest.approx(0.88, abs=0.005)


@given(loads)
def test_monotony_and_strain_are_as_numpy_has_them(days: list[int]) -> None:
    spread = float(np.std(days, ddof=1))
    one = week(*days)
    if len(set(days)) == 1:
        assert one.monotony is None
        assert one.strain is None
    else:
        assert one.monotony == pytest.approx(float(np.mean(days)) / spread)
        assert one.strain == pytest.approx(float(np.sum(days) * np.mean(days)) / spread)


@given(loads, st.integers(1, 50))
def test_monotony_says_how_alike_days_are_and_not_how_hard(days: list[int], times: int) -> None:
    harder = monotony([times * day for day in days])
    assert harder == (None if monotony(days) is None else pytest.approx(monotony(days)))


def test_a_week_with_a_class_of_which_nothing_was_said_has_no_sum() -> None:
    one = week(300, None, 0, 0, 0, 0, 0)
    assert (one.effort_minutes, one.monotony, one.strain) == (None, None, None)


def test_a_week_that_goes_on_has_a_sum_so_far_and_no_monotony() -> None:
    (one,) = effort_weeks([felt(MONDAY)], MONDAY + timedelta(2), count=1)
    assert (one.effort_minutes, one.monotony, one.over) == (300, None, False)
    (one,) = effort_weeks([felt(MONDAY)], MONDAY + timedelta(6), count=1)
    assert (one.effort_minutes, one.over) == (300, True)
    assert one.monotony is not None


def test_days_without_a_class_are_nought_and_two_classes_of_a_day_are_added() -> None:
    tuesday = MONDAY + timedelta(1)
    classes = [felt(MONDAY, 3), felt(MONDAY, 2), felt(tuesday, 8, 1800)]
    before, one = effort_weeks(classes, MONDAY + timedelta(6), count=2)
    assert one.days == (300, 240, 0, 0, 0, 0, 0)
    assert (one.classes, before.classes, before.effort_minutes) == (3, 0, 0)


@pytest.mark.parametrize(("effort", "here_s"), [(None, 3600), (7, None)])
def test_what_is_not_known_is_not_nought(effort: int | None, here_s: int | None) -> None:
    (one,) = effort_weeks([felt(MONDAY, effort, here_s)], MONDAY, count=1)
    assert one.days == (None, 0, 0, 0, 0, 0, 0)


def far_of(*efforts: int | None, on: int = 6) -> str:
    """What is said of the last of these weeks, each with one class of an hour; on its day `on`."""
    mondays = [MONDAY - timedelta(weeks=back) for back in range(len(efforts) - 1, -1, -1)]
    classes = [felt(monday, effort) for monday, effort in zip(mondays, efforts, strict=True)]
    return effort_weeks(classes, MONDAY + timedelta(on), count=len(efforts))[-1].far


def test_a_week_is_far_from_four_where_it_is_half_as_much_again_or_less_by_as_much() -> None:
    assert far_of(4, 6, 4, 5, 9) == ""
    assert far_of(4, 6, 4, 5, 10) == "above"
    assert far_of(6, 9, 6, 7, 4) == ""
    assert far_of(6, 9, 6, 7, 3) == "below"


def test_a_week_that_goes_on_can_be_far_above_already_and_never_below() -> None:
    assert far_of(4, 6, 4, 5, 10, on=1) == "above"
    assert far_of(6, 9, 6, 7, 3, on=5) == ""


def test_nothing_is_said_where_one_of_the_four_is_not_known_or_there_are_fewer() -> None:
    assert far_of(4, None, 4, 5, 10) == ""
    assert far_of(4, 4, 5, 10) == ""
