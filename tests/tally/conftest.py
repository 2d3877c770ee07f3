"""A piece rehearsed by hand: what the coach does, at moments of the piece's own clock."""

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import settings
from msgspec.structs import replace
from pydantic import TypeAdapter

from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Plan, Segment
from classclock.plan.reading.plan_reading import parse_plan
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide import Refusal, decide
from classclock.tally.lane_keys import people_named
from classclock.tally.lane_tally import LaneTally
from classclock.tally.lanes import Lane
from classclock.tally.lineup import draw_lanes
from classclock.tally.piece import Piece
from classclock.tally.scores.lane_score import LaneScore
from classclock.tally.scores.scores import scores
from classclock.tally.sheet import Sheet
from classclock.units.times import parse_time

# A busy machine is no fault of the count: how long an example takes is not what is tested.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

GO = 10_000
ATHLETES = ("Ilse", "Bram", "Noor")


def _read(fields: dict[str, Any]) -> Segment:
    segment: Segment = TypeAdapter(Segment).validate_python(fields)
    return segment


class Rehearsed:
    """One piece and its lanes. Moments are written as times of class since go, `"1:30.5"`."""

    def __init__(self, segment: Segment, lanes: Sequence[Lane]) -> None:
        self.go = GO
        self.segment = segment
        self.lanes = tuple(lanes)
        self.events: list[ev.SheetEvent] = []
        started = ev.SegmentStarted(0, 0, 1, self.go, self.lanes)
        self.sheet = Sheet.begin(Piece.of(segment, "kg"), timeline(segment), started)

    def at(self, when: str) -> int:
        return self.go + parse_time(when)

    def happen(self, event: ev.SheetEvent) -> None:
        self.sheet = self.sheet.apply(len(self.events), event)
        self.events.append(event)

    def do(self, command: cmd.CountCommand, when: str) -> str:
        """Carry out a command; the refusal's words, or nothing."""
        answer = decide(self.sheet, command, self.at(when))
        if isinstance(answer, Refusal):
            return answer.text
        self.happen(answer)
        return ""

    def tap(self, name: str, *moments: str) -> str:
        return "".join(self.do(cmd.Tap(name), when) for when in moments)

    def number(
        self,
        name: str,
        number: int | None,
        when: str,
        *,
        rounds: int | None = None,
        interval: int | None = None,
    ) -> str:
        amount = None if number is None else Decimal(number)
        return self.do(cmd.SetNumber(name, amount, rounds, interval), when)

    def hold(self, when: str) -> None:
        self.happen(ev.Held(self.at(when)))

    def resume(self, when: str) -> None:
        self.happen(ev.Resumed(self.at(when)))

    def undo_hold(self, when: str) -> None:
        self.happen(ev.HoldUndone(self.at(when)))

    def settle(self, when: str) -> None:
        self.happen(ev.Settled(self.at(when), 0, 1))

    def tally(self, name: str) -> LaneTally:
        return self.sheet.tallies[name]

    def score(self, name: str, *, settled: bool = False) -> LaneScore:
        return next(s for s in self.scores(settled=settled) if s.lane.id == name)

    def scores(self, *, settled: bool = False) -> tuple[LaneScore, ...]:
        return scores([self.sheet], now=None, settled=settled)

    def ranks(self) -> dict[str, int | None]:
        return {score.athlete: score.rank for score in self.scores(settled=True)}


@pytest.fixture(scope="session")
def segment_of() -> Callable[..., Segment]:
    """A segment from the fields that a plan gives it."""
    return lambda **fields: _read({"name": "Sandbox", **fields})


@pytest.fixture(scope="session")
def rehearsal() -> Callable[..., Rehearsed]:
    """A rehearsal of a segment: its fields, who takes part, and fields of their lanes."""

    def begin(
        names: Sequence[str] = ATHLETES,
        lane: dict[str, dict[str, Any]] | None = None,
        **fields: Any,
    ) -> Rehearsed:
        segment = _read({"name": "Sandbox", **fields})
        lanes = draw_lanes(segment, people_named(tuple(names)), {})
        changed = [replace(each, **(lane or {}).get(each.id, {})) for each in lanes]
        return Rehearsed(segment, changed)

    return begin


STATIONS = (
    {
        "movement": "box step-over",
        "reps": 6,
        "options": ["lower box", {"name": "step-up", "reps": 4}],
    },
    {"movement": "dumbbell push press", "reps": 9},
    {
        "movement": "bodyweight squat",
        "reps": 12,
        "options": [{"name": "squat to a box", "reps": 8}],
    },
)


@pytest.fixture(scope="session")
def turntable() -> dict[str, Any]:
    """As many rounds as possible of 6+9+12 in 16:00."""
    return {
        "name": "Turntable",
        "format": "rounds-in-time",
        "time": "16:00",
        "station": list(STATIONS),
    }


@pytest.fixture(scope="session")
def third_rail() -> dict[str, Any]:
    """Five rounds of 10+15 for time, capped at 12:00."""
    return {
        "name": "Third Rail",
        "format": "capped-for-time",
        "cap": "12:00",
        "rounds": 5,
        "station": [
            {"movement": "kettlebell swing", "reps": 10},
            {"movement": "sit-up", "reps": 15},
        ],
    }


@pytest.fixture(scope="session")
def headway() -> dict[str, Any]:
    """Eight times 0:20 of work and 0:10 of rest, all reps counted."""
    return {
        "name": "Headway",
        "format": "interval",
        "repeat": 8,
        "steps": [{"work": "0:20"}, {"rest": "0:10"}],
        "score": "total",
    }


DEPOT = """
title = "Depot Tuesday"

[[segment]]
name   = "Warm-up"
format = "countdown"
time   = "1:00"

[[segment]]
name   = "Turntable"
format = "rounds-in-time"
time   = "16:00"

  [[segment.station]]
  movement = "box step-over"
  reps     = 6
  options  = ["lower box", { name = "step-up", reps = 4 }]

  [[segment.station]]
  movement = "bodyweight squat"
  reps     = 12

[[segment]]
name   = "Cool-down"
format = "countdown"
time   = "1:00"
"""


@pytest.fixture(scope="session")
def depot() -> Plan:
    """A class: a warm-up of 1:00, as many rounds as possible of 6+12 in 16:00, and 1:00 to end."""
    plan, findings = parse_plan(DEPOT, "depot.toml")
    assert plan is not None, findings
    return plan
