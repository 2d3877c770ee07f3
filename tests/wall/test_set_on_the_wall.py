"""Which set of a lift the wall names, from the count-in to the end."""

from collections.abc import Callable

import pytest

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.plan.reading.plan_reading import parse_plan
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.record import ClassRecord
from classclock.wall.wall_content import wall_content

PLAN = """
title = "Tuesday"
[[segment]]
name   = "Front squat"
format = "interval"
repeat = 3
steps  = {steps}
lift   = "front squat"
sets   = [{{ reps = 3, percent = 65 }}, {{ reps = 2, percent = 70 }}, {{ reps = 1, percent = 80 }}]
score  = "load"
"""
WORK_THEN_REST = '[{ work = "2:00" }, { rest = "1:00" }]'
REST_THEN_WORK = '[{ rest = "1:00" }, { work = "2:00" }]'

SetAt = Callable[[str, int], str]


@pytest.fixture
def set_at() -> SetAt:
    """The set that stands on the wall, so many seconds after the start of the count-in."""

    def shown(steps: str, seconds: int) -> str:
        plan, findings = parse_plan(PLAN.format(steps=steps), "tuesday.toml")
        assert plan is not None, findings
        source = WoundSource(0)
        live = LiveClass(ClassClock(source, 0), ClassRecord(plan, "kg"), EventList())
        live.record_event(ev.ClassOpened(0, "", "", "kg", people_named(("Ilse",)), None))
        live.do(cmd.Start())
        source.jump(seconds * 1000 * MS)
        sheet, now = live.record.sheet, live.clock.now()
        assert sheet is not None
        reading = sheet.timeline.at(sheet.clock.elapsed(now))
        (words,) = wall_content(live.record, sheet, reading, live.phase, now=now).stations
        return words

    return shown


@pytest.mark.parametrize("steps", [WORK_THEN_REST, REST_THEN_WORK])
@pytest.mark.parametrize("seconds", [0, 5, 9])
def test_the_count_in_shows_the_first_set(set_at: SetAt, steps: str, seconds: int) -> None:
    assert set_at(steps, seconds) == "3 at 65 %"


@pytest.mark.parametrize(
    ("steps", "seconds", "words"),
    [
        (WORK_THEN_REST, 10, "3 at 65 %"),
        (WORK_THEN_REST, 10 + 120, "then 2 at 70 %"),  # the rest shows what comes
        (WORK_THEN_REST, 10 + 180, "2 at 70 %"),
        (WORK_THEN_REST, 10 + 360, "1 at 80 %"),
        (WORK_THEN_REST, 10 + 480, "1 at 80 %"),  # over
        (REST_THEN_WORK, 10, "then 3 at 65 %"),
        (REST_THEN_WORK, 10 + 60, "3 at 65 %"),
        (REST_THEN_WORK, 10 + 180, "then 2 at 70 %"),
    ],
)
def test_a_rest_shows_the_set_to_come(set_at: SetAt, steps: str, seconds: int, words: str) -> None:
    assert set_at(steps, seconds) == words
