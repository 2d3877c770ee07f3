"""While a piece runs nothing moves: not with a tenth round, a doubt, a finish, a hold or a step."""

from collections.abc import Callable, Mapping
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.machine.terminal import Terminal
from classclock.plan.reading.plan_reading import parse_plan
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.live.wall.wall_layout import WallLayout, lay_out_wall
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.record import ClassRecord
from classclock.wall.lane_content import LaneContents
from classclock.wall.wall_content import wall_content

STATIONS = """
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["step-up"]
  [[segment.station]]
  movement = "squat"
  reps = 12
  standard = "hip crease below the knee, then stand tall"
"""
CLIMB = """
  [[segment.station]]
  movement = "push-up"
  climb = { first = 4, step = 4 }
"""
SEGMENTS: Mapping[str, str] = {
    "rounds": f'format = "rounds-in-time"\ntime = "12:00"\n{STATIONS}',
    "stations": f'format = "rounds-in-time"\ntime = "12:00"\ncount = "station"\n{STATIONS}',
    "climb": f'format = "rounds-in-time"\ntime = "12:00"\n{CLIMB}',
    "capped": f'format = "capped-for-time"\ncap = "12:00"\nrounds = 3\n{STATIONS}',
    "intervals": (
        'format = "interval"\nrepeat = 4\nscore = "total"\n'
        'steps = [{ work = "0:40", stations = ["box step-over"] }, { rest = "0:20" },'
        f' {{ work = "0:40", stations = ["squat"] }}, {{ rest = "0:20" }}]\n{STATIONS}'
    ),
    "lift": (
        'format = "interval"\nrepeat = 3\nscore = "load"\nlift = "front squat"\n'
        'steps = [{ work = "1:00" }, { rest = "1:00" }]\n'
        'sets = [{ reps = 5, load = "60 kg" }, { reps = 3, load = "80 kg" },'
        ' { reps = 1, load = "102.5 kg" }]\n'
    ),
}
NAMES = ("Ilse", "Bram", "Noor", "Wilhelmina")
COMMANDS: Mapping[str, Callable[[str], cmd.CountCommand | cmd.ClockCommand]] = {
    "tap": cmd.Tap,
    "ten rounds": lambda name: cmd.SetNumber(name, Decimal(3), rounds=10),
    "number": lambda name: cmd.SetNumber(name, Decimal(3)),
    "take back": cmd.TakeBack,
    "stop": cmd.StopLane,
    "finish": cmd.FinishNow,
    "option": lambda name: cmd.ChangeOption(name, 1),
    "hold": lambda _: cmd.HoldClock(),
    "resume": lambda _: cmd.Resume(),
}
calls = st.tuples(st.sampled_from(NAMES), st.sampled_from(sorted(COMMANDS)), st.integers(0, 90))


class Running:
    """A class in the middle of a piece, whose wall is laid out whenever it is looked at."""

    def __init__(self, segment: str) -> None:
        text = f'title = "t"\n[[segment]]\nname = "Headway"\n{SEGMENTS[segment]}'
        plan, findings = parse_plan(text, "t.toml")
        assert plan is not None, findings
        self.source = WoundSource()
        clock = ClassClock(self.source, self.source.now())
        self.live = LiveClass(clock, ClassRecord(plan), EventList())
        self.live.record_event(ev.ClassOpened(0, "t", text, "kg", people_named(NAMES), None))
        self.live.do(cmd.Start())
        self.source.jump(10_000 * MS)
        self._contents = LaneContents()

    def wind(self, seconds: int) -> None:
        self.source.jump(seconds * 1000 * MS)

    def wall(self, columns: int, rows: int) -> WallLayout:
        record, now = self.live.record, self.live.clock.now()
        sheet = record.sheet
        assert sheet is not None
        reading = sheet.timeline.at(sheet.elapsed(now))
        content = wall_content(record, sheet, reading, record.phase(now), now=now)
        lanes = self._contents.at(sheet, record.heats(record.chosen), now)
        return lay_out_wall(content, lanes, columns, rows, CellMeasure(Terminal()))


@pytest.mark.parametrize("size", [(60, 17), (120, 35), (213, 59)])
@pytest.mark.parametrize("segment", sorted(SEGMENTS))
@settings(max_examples=15, deadline=None)
@given(called=st.lists(calls, max_size=20))
def test_whatever_is_called_and_whenever_nothing_moves(
    segment: str, size: tuple[int, int], called: list[tuple[str, str, int]]
) -> None:
    running = Running(segment)
    first = running.wall(*size)
    for name, kind, wait in called:
        running.wind(wait)
        running.live.do(COMMANDS[kind](name))
        assert running.wall(*size) == first


@pytest.mark.parametrize("segment", sorted(SEGMENTS))
def test_from_go_to_the_end_nothing_moves(segment: str) -> None:
    running = Running(segment)
    first = running.wall(120, 35)
    for _ in range(80):
        running.wind(10)
        assert running.wall(120, 35) == first
