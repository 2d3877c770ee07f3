"""The straight line through the last scores, beside numpy.polyfit (numpy 2, of degree 1).

polyfit minimises the squared error, as its documentation says: the same line by another way.
"""

from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from classclock.records.class_entries import read_class
from classclock.records.goals import Goal
from classclock.records.result import Terms, finish_worth, rounds_worth
from classclock.records.score_trend import FEWEST, LEAST_DAYS, MOST, pointed_to, trend_through

START = date(2026, 8, 3)
days = st.lists(st.integers(0, 300), min_size=FEWEST, max_size=MOST, unique=True).map(sorted)


@given(days, st.data())
def test_it_is_the_line_of_polyfit(after: list[int], data: st.DataObject) -> None:
    assume(after[-1] - after[0] >= LEAST_DAYS)
    values = [data.draw(st.integers(1, 900)) for _ in after]
    at = [START.toordinal() + day for day in after]
    trend = trend_through(list(zip(at, map(float, values), strict=True)))
    assert trend is not None
    # Days from the first on: with ordinals polyfit itself loses digits.
    slope, level = np.polyfit(after, values, 1)
    assert trend.a_day == pytest.approx(slope, abs=1e-6)
    for day in (after[0], after[-1], after[-1] + 60):
        wanted = slope * day + level
        assert trend.on(START.toordinal() + day) == pytest.approx(wanted, abs=1e-4)


@pytest.mark.parametrize(
    "after",
    [
        (),
        (0, 7, 14, 28),  # four
        (0, 3, 6, 9, 12, 15, 20),  # less than three weeks
    ],
)
def test_few_scores_have_no_line(after: tuple[int, ...]) -> None:
    assert trend_through([(START.toordinal() + day, 10.0) for day in after]) is None


def test_only_the_last_ten_count() -> None:
    early = [(START.toordinal() + day, 500.0) for day in range(5)]
    late = [(START.toordinal() + 100 + 7 * week, 10.0 + week) for week in range(10)]
    trend = trend_through([*early, *late])
    assert trend is not None
    assert trend.scores == 10
    assert trend.a_day == pytest.approx(1 / 7)


def by(goal_day: str, kind: Any = "rounds", score: str = "14+0", worth: int = 0) -> Goal:
    worth = worth or rounds_worth(14, 0)
    terms = Terms(work="16:00" if kind == "rounds" else "12:00")
    name = "turntable" if kind == "rounds" else "third-rail"
    return Goal("noor", name, name, score, kind, worth, terms, "2026-11-01", goal_day)


@pytest.fixture
def weekly(depot: Any) -> Any:
    """A score a week, from the third of August on: each a lane of one piece."""

    def made(piece: str, *lanes: Any) -> list[Any]:
        return [
            read_class(
                depot.document(
                    (START + timedelta(weeks=week)).isoformat(), getattr(depot, piece)(lane)
                )
            )
            .entries[0]
            .result
            for week, lane in enumerate(lanes)
        ]

    return made


@pytest.mark.parametrize(
    ("wanted", "day", "shown"),
    [
        # Nine reps a week on a round of 27: in the twelfth week 10 x 27 + 11 x 9 = 13 x 27 + 18.
        ("2026-10-19", "2026-10-19", "13+18"),
        # No further ahead than it goes back, six weeks: else where the line is today.
        ("2026-10-27", "2026-09-14", "12+0"),
        ("2027-03-01", "2026-09-14", "12+0"),
        ("", "2026-09-14", "12+0"),
    ],
)
def test_where_rounds_point(depot: Any, weekly: Any, wanted: str, day: str, shown: str) -> None:
    lanes = [depot.rounds("Noor", 10 + week // 3, week % 3 * 9) for week in range(7)]
    found = pointed_to(by(wanted), weekly("turntable", *lanes), date(2026, 9, 14))
    assert found is not None
    assert (found.day.isoformat(), found.shown) == (day, shown)


def test_where_times_point(depot: Any, weekly: Any) -> None:
    """Six seconds better a week: 8:30 at first, 8:06 in the fifth, 7:54 two weeks after that."""
    lanes = [depot.timed("Noor", f"8:{30 - 6 * week:02}") for week in range(5)]
    aim = by("2026-09-14", "time", "7:50", finish_worth(470))
    found = pointed_to(aim, weekly("third_rail", *lanes), date(2026, 9, 1))
    assert found is not None
    assert (found.shown, found.ahead) == ("7:54", True)


def test_scores_made_otherwise_or_long_ago_point_nowhere(depot: Any, weekly: Any) -> None:
    lanes = [depot.rounds("Noor", 10, modification="step-up") for _ in range(6)]
    assert pointed_to(by(""), weekly("turntable", *lanes), date(2026, 9, 14)) is None
    lanes = [depot.rounds("Noor", 10) for _ in range(6)]
    assert pointed_to(by(""), weekly("turntable", *lanes), date(2027, 9, 14)) is None
