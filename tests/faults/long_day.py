"""A day of classes in one process, at sixty times the speed, run by a coach that never tires.

`python -m tests.faults.long_day FOLDER CLASSES`, in a terminal. After each class a line goes to
`FOLDER/day.jsonl`: the memory that the process has, and how far the class's clock is off.
"""

import asyncio
import gc
import json
import os
import random
import sys
from collections.abc import Callable
from pathlib import Path

from classclock.clock.source import MS, raw_now, time_source
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.class_flow import run_class
from classclock.tally.lane_keys import people_named
from tests.faults.a_full_wall import KEYS, PEOPLE

SPEED = 60
LOG = "day.jsonl"
PLAN = """
title = "Class of the day"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "9:50"
[[segment]]
name = "Sandbox"
format = "rounds-in-time"
time = "20:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
[[segment]]
name = "Headway"
format = "interval"
repeat = 29
score = "total"
steps = [{ work = "0:20" }, { rest = "0:10" }]
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 1
"""
"""9:50, 20:00 and 14:20 with three count-ins of ten seconds, and half a minute for the coach."""


class TirelessCoach:
    """Starts every segment, taps while it runs, settles it, and leaves when all is done."""

    def __init__(self, session: Session, seed: int) -> None:
        self._session = session
        self._chance = random.Random(seed)  # noqa: S311  a sample, no secret

    async def run(self, press: Callable[[str], None]) -> None:
        live = self._session.live
        while not live.record.closed:
            phase = live.phase
            if phase in ("board", "over"):
                if phase == "over" and live.record.sheet is not None:
                    press("*")  # whatever is asked stands
                press("<enter>")
                await asyncio.sleep(1.3)  # enter is guarded against repeating itself
            else:
                press(self._chance.choice(KEYS))
                await asyncio.sleep(0.05)
        press("<ctrl+q>")


def memory() -> int:
    """Bytes that this process has in memory, as Linux says it."""
    if sys.platform != "linux":
        raise NotImplementedError("how much memory a process has")
    pages = Path("/proc/self/statm").read_text("ascii").split()[1]
    return int(pages) * os.sysconf("SC_PAGE_SIZE")


def main(folder: Path, classes: int) -> None:
    plan, findings = parse_plan(PLAN, "day.toml")
    if plan is None:
        raise ValueError(str(findings[0]))
    source = time_source(SPEED)
    raw, began = raw_now(), source.now()

    async def flow(app: ClassclockApp) -> str:
        for number in range(classes):
            session = open_session(
                PlanFile("day", PLAN, plan),
                people_named(PEOPLE),
                folder=folder,
                club=Club(),
                source=source,
                speed=SPEED,
            )
            opened = session.live.clock.opened
            await run_class(app, session, autopilot=TirelessCoach(session, number))
            gc.collect()  # what a class leaves is given back as the next one begins
            before = began + (raw_now() - raw) * SPEED - opened
            now = session.live.clock.now()
            after = began + (raw_now() - raw) * SPEED - opened
            line = {
                "memory": memory(),
                "off_ms": max(before // MS - now, now - after / MS, 0),
                "taps": session.journal.number,
                "closed": session.live.record.closed,
            }
            with (folder / LOG).open("a") as log:
                log.write(json.dumps(line) + "\n")
        return "the day is over"

    ClassclockApp(Look(), flow).run()


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
