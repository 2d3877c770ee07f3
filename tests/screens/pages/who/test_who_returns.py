"""Who comes back after weeks, behind F7: for the coach's eyes, and nobody else's."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.pages.who.who_screen import WhoScreen
from classclock.screens.ways import Ways
from classclock.tally.lanes import Choice, Portion
from tests.depot_classes import DepotClasses

NOW = datetime(2026, 11, 30, 18, 28, tzinfo=UTC)
PLAN = """
title = "Turntable Monday"
[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 27
  options = ["step-up"]
"""
TOLD = ("first in 5 weeks", "college athletes", "After illness", "Less is always right")


@pytest.fixture
def who(depot: DepotClasses) -> Callable[..., WhoScreen]:
    """Piet did eight rounds twice and was away for five weeks; Bram comes as ever."""
    for days in range(80, 0, -4):
        lanes = [depot.rounds("Bram", 7)]
        if days >= 36:
            lanes.append(depot.rounds("Piet", 8))
        depot.held(str((NOW - timedelta(days=days)).date()), depot.turntable(*lanes))
    plan, _ = parse_plan(PLAN, "t.toml")
    assert plan is not None

    def make(*, mirrored: bool) -> WhoScreen:
        club = Club.model_validate({"tv": {"mirrored": mirrored}})
        return Ways(Look(), depot.folder).who(plan, club, NOW)

    return make


async def here(coach: Any) -> None:
    await coach.press(*"Bram", "enter", *"Piet", "enter")
    await coach.read()


async def test_it_is_said_behind_f7_and_given_with_one_key_and_taken_back(
    open_page: Any, who: Callable[..., WhoScreen]
) -> None:
    async with open_page(who(mirrored=False)) as coach:
        await here(coach)
        assert "first in" not in coach.seen
        assert "F7: marks, 1 to look at" in coach.seen
        await coach.press("f7")
        seen = " ".join(coach.seen.split())
        assert all(words in seen for words in TOLD)
        assert "Turntable: usually 8+0. 5 gives about half: 4 rounds" in seen
        await coach.press("5", "5", "5")
        assert "5 takes back about half: 4 rounds" in coach.seen
        await coach.press("f7")
        assert "about half: 4 rounds" in coach.seen  # as any option stands there
        assert "first in" not in coach.seen
        await coach.press("1", "enter")
    piet = next(one.id for one in coach.result.people if one.name == "Piet")
    agreed = Portion("about half: 4 rounds", rounds=4)
    assert coach.result.choices == {(0, piet): Choice((1,), portion=agreed)}


async def test_as_written_takes_it_back_too(open_page: Any, who: Callable[..., WhoScreen]) -> None:
    async with open_page(who(mirrored=False)) as coach:
        await here(coach)
        await coach.press("f7", "5", "f7", "0", "enter")
    assert all(not choice.portion for choice in coach.result.choices.values())


async def test_on_a_mirrored_screen_nothing_is_said_until_the_coach_has_turned_it_away(
    open_page: Any, who: Callable[..., WhoScreen]
) -> None:
    async with open_page(who(mirrored=True)) as coach:
        await here(coach)
        await coach.press("f7", "5")
        assert not any(words in coach.seen for words in ("first in", "half", "college"))
        assert "1 here to look at: turn the TV away or mute it, then ctrl+o" in coach.seen
        await coach.press("ctrl+o")
        assert "first in 5 weeks" in coach.seen
        await coach.press("f7", "f7")
        assert "first in" not in coach.seen  # every time anew
        await coach.press("f7", "enter")
    assert coach.result.choices == {}


async def test_who_comes_as_ever_has_nothing_to_be_given(
    open_page: Any, who: Callable[..., WhoScreen]
) -> None:
    async with open_page(who(mirrored=False)) as coach:
        await here(coach)
        await coach.press("up", "f7")
        assert "1 here to look at: up, down" in coach.seen
        await coach.press("5")
        assert "Bram: nothing is proposed" in coach.seen
