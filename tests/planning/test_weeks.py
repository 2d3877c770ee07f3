"""This week, the four before it, and what is planned, worked out by hand."""

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.movements.starter_library import starter_library
from classclock.planning.patterns import ClassHeld
from classclock.planning.weeks import BEFORE, first_day, last_day, weeks_until

LIBRARY = starter_library()
WEDNESDAY = dt.date(2026, 11, 25)
"""ISO 8601: Wednesday of week 48 of 2026, whose Monday is 23 November."""
DAY = dt.timedelta(days=1)


def lift(day: dt.date, *lifts: str, title: str = "") -> ClassHeld:
    return ClassHeld(day, title or f"class of {day}", lifts, 600_000, lifts)


def test_five_weeks_begin_on_mondays_and_end_today() -> None:
    held = [
        ClassHeld(dt.date(2026, 10, 25), "too long ago", ("row",)),  # a Sunday
        ClassHeld(dt.date(2026, 10, 26), "the first Monday", ("row",), 7 * 60_000),
        ClassHeld(dt.date(2026, 11, 22), "last Sunday", ("deadlift", "row"), 15 * 60_000),
        ClassHeld(dt.date(2026, 11, 25), "today", ("push-up",), 16 * 60_000),
    ]
    weeks = weeks_until(WEDNESDAY, held, (), LIBRARY)
    mondays = [week.monday.isoformat() for week in weeks.weeks]
    assert mondays == ["2026-10-26", "2026-11-02", "2026-11-09", "2026-11-16", "2026-11-23"]
    assert [week.held.classes for week in weeks.weeks] == [1, 0, 0, 1, 1]
    assert weeks.weeks[0].held.patterns["row/run"] == 1
    assert weeks.weeks[3].held.patterns["hinge"] == weeks.weeks[3].held.patterns["row/run"] == 1
    assert weeks.weeks[4].held.patterns["push"] == 1
    assert [week.held.lengths["8:00 to 15:00"] for week in weeks.weeks] == [0, 0, 0, 1, 0]


def test_plans_for_the_coming_seven_days_count_apart() -> None:
    planned = [
        ClassHeld(WEDNESDAY - DAY, "yesterday", ("row",)),
        ClassHeld(WEDNESDAY, "tonight", ("row",)),
        ClassHeld(WEDNESDAY + 6 * DAY, "Tuesday", ("row",)),
        ClassHeld(WEDNESDAY + 7 * DAY, "next Wednesday", ("row",)),
    ]
    weeks = weeks_until(WEDNESDAY, (), planned, LIBRARY)
    assert [one.title for one in weeks.planned] == ["tonight", "Tuesday"]
    assert weeks.coming.patterns["row/run"] == 2
    assert not any(week.held.classes for week in weeks.weeks)


def test_a_plan_that_was_held_today_isnt_planned_any_more() -> None:
    tonight = ClassHeld(WEDNESDAY, "Turntable", ("row",))
    weeks = weeks_until(WEDNESDAY, [tonight], [tonight], LIBRARY)
    assert (weeks.weeks[-1].held.classes, weeks.coming.classes) == (1, 0)


def test_heavy_twice_running_is_said_of_yesterday_and_of_a_plan_for_tomorrow() -> None:
    held = [lift(WEDNESDAY - DAY, "deadlift"), lift(WEDNESDAY, "power clean")]
    weeks = weeks_until(WEDNESDAY, held, [lift(WEDNESDAY + DAY, "deadlift")], LIBRARY)
    assert [weeks.heavy_words(one) for one in weeks.heavy_lately] == [
        "hinge, heavy, on Wed 25 Nov (power clean) and Thu 26 Nov (deadlift), planned",
        "hinge, heavy, on Tue 24 Nov (deadlift) and Wed 25 Nov (power clean)",
    ]


def test_a_sunday_and_its_monday_are_lately_and_what_was_before_is_not() -> None:
    monday = dt.date(2026, 11, 23)
    days = [monday - 2 * DAY, monday - DAY, monday]
    weeks = weeks_until(WEDNESDAY, [lift(day, "deadlift") for day in days], (), LIBRARY)
    assert [one.first for one in weeks.heavy_twice] == [days[1], days[0]]
    assert [one.first for one in weeks.heavy_lately] == [days[1]]


days = st.dates(dt.date(2026, 1, 1), dt.date(2026, 12, 31))
classes = st.lists(st.builds(lift, days, st.sampled_from(["deadlift", "back squat", "tram"])))


@given(days, classes, classes)
def test_each_class_of_these_weeks_is_in_one_column_and_no_other_in_any(
    today: dt.date, held: list[ClassHeld], planned: list[ClassHeld]
) -> None:
    weeks = weeks_until(today, held, planned, LIBRARY)
    assert len(weeks.weeks) == BEFORE + 1
    assert all(week.monday.weekday() == 0 for week in weeks.weeks)
    within = [one for one in held if first_day(today) <= one.date <= today]
    assert sum(week.held.classes for week in weeks.weeks) == len(within)
    assert all(today <= one.date <= last_day(today) for one in weeks.planned)
    back = weeks_until(today, held[::-1], planned[::-1], LIBRARY)
    assert [week.held.patterns for week in back.weeks] == [w.held.patterns for w in weeks.weeks]
    assert [one.first for one in back.heavy_twice] == [one.first for one in weeks.heavy_twice]
