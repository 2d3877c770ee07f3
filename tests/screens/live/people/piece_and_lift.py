"""Plans of a piece with options and loads, alone and after a lift; and the coach at the list."""

from typing import Any

SIZES = [(60, 18), (120, 36), (213, 60)]
_TURNTABLE = """
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box", { name = "step-up", reps = 4 }]
  [[segment.station]]
  movement = "dumbbell push press"
  reps = 9
  load = { heavier = "22.5 kg", lighter = "15 kg" }
"""
PIECE = f'title = "Turntable Tuesday"{_TURNTABLE}'
LIFT_AND_PIECE = f"""
title = "Depot Thursday"
[[segment]]
name = "Front squat"
format = "interval"
repeat = 5
steps = [{{ work = "2:00", label = "3 reps" }}]
lift = "front squat"
sets = [{{ reps = 3, load = "60 kg" }}, {{ reps = 3, load = "65 kg" }}]
score = "load"
{_TURNTABLE}"""


async def asks_who(coach: Any) -> None:
    """`+`, and the club's names are read."""
    await coach.press("plus")
    await coach.screen.work.reading.finished()
    await coach.screen.work.naming.finished()


def words(text: str) -> str:
    return " ".join(text.split())
