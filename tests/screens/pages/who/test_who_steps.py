"""Who may try the next option, behind F7."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.pages.who.who_screen import WhoScreen
from classclock.screens.ways import Ways
from tests.depot_classes import DepotClasses

NOW = datetime(2026, 11, 30, 18, 28, tzinfo=UTC)
PLAN = """
title = "Headway Monday"
[[segment]]
name = "Headway"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 27
  options = ["lower box", "step-up"]
"""


@pytest.fixture
def who(depot: DepotClasses) -> Callable[..., WhoScreen]:
    """Odell did six classes on the step-up as well as the others; Uri fell behind in two."""
    for days in range(42, 0, -7):
        lanes = [depot.rounds(name, rounds) for name, rounds in (("Bram", 8), ("Mei", 9))]
        step_up: dict[str, Any] = {"options": ["step-up"], "modification": "step-up"}
        lower_box: dict[str, Any] = {"options": ["lower box"], "modification": "lower box"}
        lanes.append(depot.rounds("Odell", 8, **step_up))
        lanes.append(depot.rounds("Uri", 8 if days > 14 else 4, **lower_box))
        day = str((NOW - timedelta(days=days)).date())
        depot.held(day, depot.piece("Headway", "rounds-in-time", lanes, length_s=960))
    plan, _ = parse_plan(PLAN, "t.toml")
    assert plan is not None

    def make(**club: Any) -> WhoScreen:
        return Ways(Look(), depot.folder).who(plan, Club.model_validate(club), NOW)

    return make


async def here(coach: Any) -> None:
    await coach.press(*"Uri", "enter", *"Odell", "enter")
    await coach.read()
    assert not any(words in coach.seen for words in ("next?", "instead?"))
    await coach.press("f7")


async def test_each_is_named_with_the_next_one_up_or_the_one_below(
    open_page: Any, who: Callable[..., WhoScreen]
) -> None:
    async with open_page(who(tv={"mirrored": False})) as coach:
        await here(coach)
        seen = " ".join(coach.seen.split())
        assert "Odell: step-up six times: lower box next?" in seen
        assert "Common practice, no source" in seen
        assert "No score says how somebody moves" in seen
        await coach.press("up")
        assert "Uri: lower box far behind twice: step-up instead?" in coach.seen
        await coach.press("f7", "2", "f7")  # what they'd do today is what counts
        assert "instead?" not in coach.seen


OFF = {"tv": {"mirrored": False}, "class": {"next_step_after": 0}}


@pytest.mark.parametrize("club", [{"tv": {"mirrored": True}}, OFF])
async def test_nobody_is_named_on_a_mirrored_screen_nor_where_the_club_wants_none(
    open_page: Any, who: Callable[..., WhoScreen], club: dict[str, Any]
) -> None:
    async with open_page(who(**club)) as coach:
        await here(coach)
        assert not any(words in coach.seen for words in ("next?", "instead?", "practice"))
