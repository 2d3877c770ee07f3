"""A small class for what is tried at its edges: a piece of two minutes, and what may follow it."""

from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan

_PIECE = """
[[segment]]
name = "{}"
format = "rounds-in-time"
time = "2:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
"""
SANDBOX = _PIECE.format("Sandbox")
TURNSTILE = _PIECE.format("Turnstile")
WALK_HOME = """
[[segment]]
name = "Walk home"
format = "countdown"
time = "1:00"
"""


def yard_night(*segments: str) -> PlanFile:
    """The plan with these segments."""
    text = "".join(('title = "Yard night"\n', *segments))
    plan, findings = parse_plan(text, "yard.toml")
    assert plan is not None, findings
    return PlanFile("yard", text, plan)
