"""Lanes that are kept between two looks say what they would say if they were worked out anew."""

from collections.abc import Callable, Mapping

from hypothesis import given
from hypothesis import strategies as st

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.plan.reading.plan_reading import parse_plan
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.record import ClassRecord
from classclock.wall.lane_content import LaneContent, LaneContents

PLAN = """
title = "t"
[[segment]]
name = "Headway"
format = "rounds-in-time"
time = "10:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
"""
NAMES = ("Ilse", "Bram", "Noor")
COMMANDS: Mapping[str, Callable[[str], cmd.CountCommand]] = {
    "tap": cmd.Tap,
    "take back": cmd.TakeBack,
    "stop": cmd.StopLane,
}
steps = st.tuples(st.sampled_from(NAMES), st.sampled_from(sorted(COMMANDS)), st.integers(0, 90_000))


class Wall:
    def __init__(self) -> None:
        plan, findings = parse_plan(PLAN, "t.toml")
        assert plan is not None, findings
        self.source = WoundSource()
        self.live = LiveClass(
            ClassClock(self.source, self.source.now()), ClassRecord(plan), EventList()
        )
        self.live.record_event(ev.ClassOpened(0, "t", PLAN, "kg", people_named(NAMES), None))
        self.live.do(cmd.Start())
        self.source.jump(10_000 * MS)
        self.kept = LaneContents()

    def look(self, selected: str | None = None) -> tuple[LaneContent, ...]:
        record = self.live.record
        assert record.sheet is not None
        now = self.live.clock.now()
        heats = record.heats(record.chosen)
        seen = self.kept.at(record.sheet, heats, now, selected=selected)
        fresh = LaneContents().at(record.sheet, heats, now, selected=selected)
        assert seen == fresh
        return seen


@given(st.lists(steps, max_size=25), st.sampled_from((None, *NAMES)))
def test_whatever_is_called_and_whenever_kept_lanes_are_right(
    called: list[tuple[str, str, int]], selected: str | None
) -> None:
    wall = Wall()
    for name, kind, wait in called:
        wall.source.jump(wait * MS)
        wall.live.do(COMMANDS[kind](name))
        wall.look(selected)


def test_a_lane_of_which_nothing_has_changed_is_taken_as_it_was() -> None:
    wall = Wall()
    before = wall.look()
    wall.live.do(cmd.Tap("Noor"))
    after = wall.look()
    assert [new is old for new, old in zip(after, before, strict=True)] == [True, True, False]
