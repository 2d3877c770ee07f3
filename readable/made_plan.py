"""The plan of the made class: five pieces, so that every kind of score is on its last screen."""

from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club

SETS = 3
"""Of the lift."""
PLAN = """
title = "Night Line"
notes = ["Boxes along the west rail."]

[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
lines = ["easy row", "arm circles"]

[[segment]]
name = "Points Lever"
benchmark = "points-lever"
format = "rounds-in-time"
time = "10:00"
caution = ["Step down from the box."]

  [[segment.station]]
  movement = "box step-over"
  reps = 6
  standard = "both feet on the box"
  points = ["whole foot on the box", "stand tall"]
  options = ["lower box", { name = "step-up", reps = 4 }]

  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
  standard = "hip crease below the knee, then stand tall"
  options = ["chair stand"]

[[segment]]
name = "Third Rail"
benchmark = "third-rail"
format = "capped-for-time"
cap = "12:00"
scheme = [18, 12, 6]

  [[segment.station]]
  movement = "ring row"
  standard = "rings to the ribs"

  [[segment.station]]
  movement = "push-up"
  standard = "chest to the floor"

[[segment]]
name = "Signal Box"
benchmark = "signal-box"
format = "interval"
repeat = 2
steps = [
  { work = "0:45", stations = ["row"] },
  { rest = "0:15" },
  { work = "0:45", stations = ["goblet squat"] },
  { rest = "0:15" },
]
score = "total"

  [[segment.station]]
  movement = "row"

  [[segment.station]]
  movement = "goblet squat"

[[segment]]
name = "Back squat"
format = "interval"
repeat = 3
steps = [{ work = "0:45" }, { rest = "2:15" }]
lift = "back squat"
sets = [{ reps = 5, load = "40 kg" }, { reps = 5, load = "45 kg" }, { reps = 3, load = "50 kg" }]
score = "load"

[[segment]]
name = "Yard lap"
benchmark = "yard-lap"
format = "capped-for-time"
cap = "6:00"
rounds = 1

  [[segment.station]]
  movement = "run"
  metres = 400
  counts = 10
"""
CLUB = Club.model_validate(
    {
        "name": "Line 0 Depot",
        "emergency": {
            "address": "Line 0 Depot, 0 Points Row, yard gate",
            "defibrillator": "in the ticket window, left of the door",
            "first_aid": "green box under the route map",
            "call": "the local emergency number",
        },
        "bar": [{"name": "20 kg bar", "weight": "20 kg", "count": 26}],
        "plates": {"pairs": {"20": 40, "15": 40, "10": 40, "5": 40, "2.5": 40, "1.25": 40}},
        "equipment": {"box": 4},
    }
)
"""With a box for only some, so that there is something to share."""


def made_plan() -> PlanFile:
    plan, findings = parse_plan(PLAN, "night-line.toml")
    if plan is None:
        raise ValueError(str(findings[0]))
    return PlanFile("night-line", PLAN, plan)


def load(lane: int, number: int) -> str:
    """What somebody lifts in a set, in kg; lanes from 0, sets from 1."""
    return f"{40 + 2.5 * (lane % 13) + 5 * (number - 1):g}"


def plates(lane: int, number: int) -> str:
    """What goes on each side of the bar of 20 kg for that, the heaviest first."""
    left, found = (float(load(lane, number)) - 20) / 2, []
    for plate in (20, 15, 10, 5, 2.5, 1.25):
        while left >= plate:
            left -= plate
            found.append(f"{plate:g}")
    return "+".join(found)
