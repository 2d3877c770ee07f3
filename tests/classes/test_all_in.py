"""Everybody is done long before the cap: the piece ends, and the class goes on."""

from typing import Any

import pytest

from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan

PLAN = """
title = "Depot Thursday"

[[segment]]
name   = "Third Rail"
format = "capped-for-time"
cap    = "12:00"
scheme = [18, 12, 6]

  [[segment.station]]
  movement = "bodyweight squat"
"""


@pytest.fixture
def plan_file() -> PlanFile:
    plan, findings = parse_plan(PLAN, "third-rail.toml")
    assert plan is not None, findings
    return PlanFile("third-rail", PLAN, plan)


@pytest.fixture
def all_in(coach: Any) -> Any:
    """Everybody has finished at 5:00."""
    coach.start()
    coach.wind(300)
    for lane in coach.session.live.lineup():
        coach.type(f"*{lane.key}")
    return coach


def test_all_in_ends_by_itself_and_enter_goes_on_long_before_the_cap(all_in: Any) -> None:
    all_in.wind(14)
    assert all_in.session.live.phase == "over"
    assert all_in.type("<enter>").endswith("as it stands. Backspace asks again")
    all_in.type("*<enter>")
    assert all_in.session.live.phase == "closed"


def test_enter_after_the_class_is_over_says_so(all_in: Any) -> None:
    all_in.wind(14)
    all_in.type("*<enter>")
    all_in.wind(2)
    assert all_in.type("<enter>").startswith("the class is over")


def test_a_letter_only_selects_once_all_in_has_ended_the_piece(all_in: Any) -> None:
    all_in.wind(14)
    key = all_in.session.live.lineup()[0].key
    assert all_in.type(key) == ""


def test_enter_just_after_the_end_says_that_late_calls_still_count(all_in: Any) -> None:
    all_in.wind(11)
    assert all_in.type("<enter>") == "late calls still count for a moment: then enter goes on"
    assert not all_in.session.live.record.sheet.settled
