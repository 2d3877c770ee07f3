"""Who comes back, and in which of their first weeks they are.

The numbers: CSCCa and NSCA joint consensus guidelines, Strength Cond J 41(3) (2019) 1, by a
secondary copy; which week has which is from memory.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.records.returning import BREAK, LOWER, Attended, FirstWeeks, first_weeks

TODAY = date(2026, 11, 30)
AGO = st.integers(0, 200).map(lambda days: TODAY - timedelta(days=days))
CAME = st.lists(AGO, max_size=40).map(tuple)


def ago(*days: int) -> Attended:
    return Attended(tuple(TODAY - timedelta(days=one) for one in days))


def test_two_weeks_away_are_a_return_and_a_day_less_is_none() -> None:
    assert first_weeks(ago(13, 16), TODAY) is None
    back = first_weeks(ago(14, 16), TODAY)
    assert back is not None
    assert (back.week, back.weeks_away, back.usual_until) == (1, 2, TODAY - timedelta(days=14))


@pytest.mark.parametrize(
    ("back_since", "week", "lower"),
    [(0, 1, 50), (6, 1, 50), (7, 2, 30), (14, 3, 20), (21, 4, 10), (27, 4, 10), (28, None, None)],
)
def test_four_weeks_are_lower_by_50_30_20_and_10_percent(
    back_since: int, week: int | None, lower: int | None
) -> None:
    # Five weeks away before that, and twice a week since.
    since = range(back_since, 0, -4)
    found = first_weeks(ago(*since, back_since + 35, back_since + 37), TODAY)
    assert (found and found.week, found and found.lower) == (week, lower)
    assert found is None or found.weeks_away == 5


def test_who_breaks_off_again_begins_anew_and_keeps_what_was_usual_before_it_all() -> None:
    found = first_weeks(ago(15, 16, 60, 62, 64), TODAY)
    assert found == FirstWeeks(
        TODAY, 1, away=timedelta(days=15), usual_until=TODAY - timedelta(days=60)
    )


def test_a_break_after_four_whole_weeks_makes_those_weeks_what_is_usual() -> None:
    since = range(20, 50, 4)
    found = first_weeks(ago(*since, 100), TODAY)
    assert found is not None
    assert found.usual_until == TODAY - timedelta(days=20)


def test_who_is_new_has_nothing_usual_and_four_weeks_too() -> None:
    assert first_weeks(Attended((), new=True), TODAY) == FirstWeeks(TODAY, 1, None, None)
    since = tuple(TODAY - timedelta(days=one) for one in (9, 5))
    found = first_weeks(Attended(since, new=True), TODAY)
    assert found == FirstWeeks(since[0], 2, None, None)
    assert first_weeks(Attended(since), TODAY) is None


@given(CAME, st.booleans())
def test_only_who_had_a_break_in_these_weeks_is_in_them(came: tuple[date, ...], new: bool) -> None:  # noqa: FBT001  drawn
    found = first_weeks(Attended(came, new), TODAY)
    days = sorted({TODAY, *came})
    returns = [day for n, day in enumerate(days) if n and day - days[n - 1] >= BREAK]
    began = returns or ([days[0]] if new else [])
    within = bool(began) and (TODAY - began[-1]).days < 7 * len(LOWER)
    assert (found is not None) == within
    if found is not None:
        assert found.since == began[-1]
        assert found.lower == LOWER[(TODAY - found.since).days // 7]
        assert found.usual_until is None or found.usual_until <= found.since - BREAK


@given(CAME, AGO)
def test_coming_on_a_day_between_never_makes_a_break_longer(
    came: tuple[date, ...], more: date
) -> None:
    before, after = first_weeks(Attended(came), TODAY), first_weeks(Attended((*came, more)), TODAY)
    if before is not None and after is not None and before.since == after.since:
        assert before.away is not None
        assert after.away is not None
        assert after.away <= before.away
