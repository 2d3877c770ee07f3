"""A goal's mark in the lane, and what is cheered at the settle and at the end."""

from typing import Any

import pytest

from classclock.book.changing import write_down
from classclock.book.files.goal_lines import GoalSet
from classclock.clock.source import local_now
from classclock.records.result import rounds_worth
from classclock.screens.live.end.summary_view import SummaryView
from classclock.screens.live.settle.score_layout import BEST, cheer_of
from classclock.tally.signs import GOAL_MARK
from classclock.wall.lane_bars import Ribbon
from tests.screens.live.wall.test_own_bests_on_the_wall import (
    Opened,
    lanes,
    rounds,
    second_time,
    settled,
)

__all__ = ["second_time"]
SINCE = "2026-02-10"


@pytest.fixture(autouse=True)
def _goals(depot: Any) -> None:
    """Ilse works towards 9+0, Bram towards 8+0 with an option; the class is of 3 March."""
    for who, score, option in (("ilse", 9, ""), ("bram", 8, "step-up")):
        goal = GoalSet(
            athlete=who,
            benchmark="Turntable",
            score=f"{score}+0",
            kind="rounds",
            worth=rounds_worth(score, 0),
            since=SINCE,
            modification=option,
            work="16:00",
        )
        write_down(depot.folder, [goal], local_now())


def goal_at(coach: Any, name: str) -> int | None:
    bar = lanes(coach)[name].bar
    assert isinstance(bar, Ribbon)
    return bar.goal


async def test_the_mark_is_where_the_goals_pace_ends_the_round(second_time: Opened) -> None:
    async with second_time() as coach:
        await coach.wind(60)
        # Nine rounds in 16:00: the first is over after 106,666 ms.
        assert goal_at(coach, "Ilse") == 960_000 // 9
        assert (goal_at(coach, "Bram"), goal_at(coach, "Noor")) == (None, None)
        assert GOAL_MARK in coach.seen()
        await coach.wind(40)
        await coach.press("i")
        assert goal_at(coach, "Ilse") == 2 * 960_000 // 9
        await coach.press(":", "b", "1")  # from here with the option: its own goal
        assert goal_at(coach, "Bram") == 960_000 // 8


async def test_nobody_sees_the_goal_of_who_keeps_bests_off_the_wall(second_time: Opened) -> None:
    async with second_time(private=("Ilse",)) as coach:
        await coach.wind(60)
        assert goal_at(coach, "Ilse") is None
        assert GOAL_MARK not in coach.seen()
        await rounds(coach, "i", 10, 90)
        await coach.wind(100)
        await coach.press("*", "enter")
        assert settled(coach)["Ilse"].best == ""


async def test_reached_is_cheered_as_a_new_best_is(second_time: Opened) -> None:
    async with second_time() as coach:
        await rounds(coach, "i", 9, 100)
        await coach.wind(70)
        await coach.press("3", "i", "2", "b", "2", "n")
        row = settled(coach)["Ilse"]
        assert cheer_of(row) == f"{BEST} goal reached"
        assert row.best.startswith("goal reached: 9+0; new best: 30 reps more than 8+0")
        assert row.new_best
        await coach.press("enter")
        await coach.wind(3)
        await coach.press("enter")
        page = coach.screen.query_one(SummaryView).page
        assert page is not None
        assert cheer_of(page.pieces[0].rows[0]) == f"{BEST} goal reached"


async def test_short_of_it_nothing_is_said_of_it(second_time: Opened) -> None:
    async with second_time() as coach:
        await rounds(coach, "i", 8, 110)
        await coach.wind(90)
        await coach.press("2", "6", "i", "2", "b", "2", "n")
        assert settled(coach)["Ilse"].best.startswith("new best: 26 reps more")
