"""What is said of a plan without faults; the sums are done by hand."""

import pytest

from classclock.plan.checked import check_lines, check_values
from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan

TEXT = """\
title = "Sandbox Sunday"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
[[segment]]
name = "Sandbox"
format = "capped-for-time"
cap = "9:30"
count_in = "0:05"
rounds = 3
[[segment.station]]
movement = "sit-up"
reps = 12
[[segment.station]]
movement = "row"
calories = 8
"""


@pytest.fixture
def plan() -> Plan:
    plan, findings = parse_plan(TEXT, "sandbox.toml")
    assert plan is not None, findings
    return plan


def test_a_line_a_segment_and_the_whole_with_the_count_ins(plan: Plan) -> None:
    title, *segments, whole = (line.split("  ") for line in check_lines(plan))
    assert title == ["Sandbox Sunday"]
    assert [[part.strip() for part in line if part.strip()] for line in segments] == [
        ["8:00", "Warm-up", "8:00"],
        ["9:30", "Sandbox", "3 rounds for time, cap 9:30, 60 reps", "scored"],
    ]
    # 8:00 and 9:30, and 10 s and 5 s before them.
    assert [part.strip() for part in whole if part.strip()] == [
        "17:30",
        "in all, 17:45 with the count-ins; talk and set-up come on top",
    ]


def test_the_same_as_values_in_seconds_and_reps(plan: Plan) -> None:
    said = check_values(plan)
    assert (said["title"], said["seconds"], said["seconds_with_count_ins"]) == (
        "Sandbox Sunday",
        1050,
        1065,
    )
    assert said["segments"] == [
        {
            "name": "Warm-up",
            "words": "8:00",
            "scored": False,
            "seconds": 480,
            "round_reps": None,
            "total_reps": None,
        },
        {
            "name": "Sandbox",
            "words": "3 rounds for time, cap 9:30, 60 reps",
            "scored": True,
            "seconds": 570,
            "round_reps": 20,
            "total_reps": 60,
        },
    ]


def test_what_steers_a_terminal_is_shown_as_an_escape(plan: Plan) -> None:
    hostile = plan.model_copy(update={"title": "Sandbox\x1b[2J"})
    assert check_lines(hostile)[0] == "Sandbox\\x1b[2J"
