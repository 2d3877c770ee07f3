from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from classclock.clock.source import MS, WoundSource
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.tally.keys.strokes import NAMED_KEYS
from classclock.tally.lane_keys import people_named

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
caution = ["Step down from the box, don't jump."]

  [[segment.station]]
  movement = "box step-over"
  reps     = 6
  options  = ["lower box", { name = "step-up", reps = 4 }]

  [[segment.station]]
  movement = "dumbbell push press"
  reps     = 9

  [[segment.station]]
  movement = "bodyweight squat"
  reps     = 12
"""


class Coach:
    """Types on a session under time wound by hand."""

    def __init__(self, session: Session, source: WoundSource) -> None:
        self.session = session
        self.source = source

    def wind(self, seconds: float) -> None:
        self.source.jump(round(seconds * 1000) * MS)

    def type(self, keys: str) -> str:
        """Type signs and `<named keys>`; what the last of them was answered with."""
        said = ""
        while keys:
            named = next((name for name in NAMED_KEYS if keys.startswith(name)), keys[0])
            keys = keys[len(named) :]
            answer = self.session.key(named, 0.0)
            said = answer.outcome.text if answer.outcome is not None else answer.notice
        return said

    def start(self) -> None:
        """Start the segment on the board, and wind to go."""
        self.wind(2)
        self.type("<enter>")
        self.wind(10)


@pytest.fixture
def plan_file() -> PlanFile:
    plan, findings = parse_plan(PLAN, "turntable.toml")
    assert plan is not None, findings
    return PlanFile("turntable", PLAN, plan)


@pytest.fixture
def source() -> WoundSource:
    return WoundSource(start=5_000 * MS, wall=datetime.fromisoformat("2026-11-24T18:30:00+01:00"))


@pytest.fixture
def open_class(plan_file: PlanFile, source: WoundSource, tmp_path: Path) -> Callable[..., Coach]:
    def make(*names: str) -> Coach:
        session = open_session(
            plan_file,
            people_named(names or ("Ilse", "Bram", "Noor")),
            folder=tmp_path,
            club=Club(),
            source=source,
            sound=False,
        )
        return Coach(session, source)

    return make


@pytest.fixture
def coach_of() -> type[Coach]:
    """Makes the coach of any session."""
    return Coach


@pytest.fixture
def coach(open_class: Callable[..., Coach]) -> Coach:
    return open_class()
