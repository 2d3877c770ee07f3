"""What tests of following a class share."""

from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan

PLAN = """
title = "Depot Tuesday"

[[segment]]
name   = "Warm-up"
format = "countdown"
time   = "1:00"

[[segment]]
name   = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time   = "16:00"

  [[segment.station]]
  movement = "box step-over"
  reps     = 6
  standard = "both feet on the box"
  options  = ["lower box", { name = "step-up", reps = 4 }]

  [[segment.station]]
  movement = "bodyweight squat"
  reps     = 12
"""


def plan_of(text: str) -> Plan:
    plan, findings = parse_plan(text, "turntable.toml")
    assert plan is not None, findings
    return plan
