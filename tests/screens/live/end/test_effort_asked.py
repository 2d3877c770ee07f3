"""The last screen asks how hard it was: the room sees who has said so, and no number."""

from typing import Any

import pytest

from classclock.plan.settings.club import Club
from tests.screens.conftest import CARD

PLAN = """
title = "One short one"
[[segment]]
name = "Yard Lap"
format = "rounds-in-time"
time = "1:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
"""
ASKS = Club.model_validate({"class": {"ask_effort": True}, "emergency": CARD.model_dump()})


async def ended(coach: Any) -> None:
    await coach.start()
    await coach.wind(70)
    await coach.press("asterisk", "enter")
    await coach.wind(2)
    assert coach.live.record.closed


@pytest.mark.parametrize("size", [(60, 18), (120, 36), (213, 60)])
async def test_it_is_asked_answered_and_skipped(open_class: Any, size: tuple[int, int]) -> None:
    async with open_class(PLAN, club=ASKS, size=size) as coach:
        await ended(coach)
        seen = " ".join(coach.seen().split())
        assert "How hard was it? 0 as good as sitting; 5 work, with some left" in seen
        assert "I Ilse B Bram N Noor" in seen
        before = coach.seen().count("8")
        await coach.press("8")
        assert coach.seen().count("8") <= before
        await coach.press("n")
        assert "Noor, how hard it was: ✓" in coach.foot()
        assert "I Ilse B Bram ✓ Noor" in " ".join(coach.seen().split())
        assert coach.seen().count("8") <= before
        await coach.wind(2)
        await coach.press("enter")
        assert "How hard was it?" not in coach.seen()


async def test_a_club_that_does_not_ask_sees_nothing_of_it(open_class: Any) -> None:
    async with open_class(PLAN) as coach:
        await ended(coach)
        assert "How hard" not in coach.seen()
