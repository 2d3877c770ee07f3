"""Turns at a bar: they pass on at a made lift or a miss, and come back when it is taken back."""

from typing import Any

import pytest

from classclock.plan.reading.plan_reading import parse_plan
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.lineup import draw_lanes
from classclock.tally.record import ClassRecord
from classclock.tally.turns import Turn, turns
from classclock.units.loads import parse_load

PLAN = """
title = "Depot"
[[segment]]
name = "Squat"
format = "interval"
repeat = 2
steps = [{ work = "2:00" }]
lift = "front squat"
sets = [{ reps = 3, load = "60 kg" }, { reps = 3, load = "65 kg" }]
score = "load"
[[segment]]
name = "Heavy single"
format = "countdown"
time = "12:00"
lift = "front squat"
score = "load"
"""
SQUAT, SINGLE = 0, 1
GO = 10_000
NAMES = ("Ilse", "Ian", "Noor", "Bram")


class Lifting:
    """A lift that runs, with partners at one bar or two."""

    def __init__(self, segment: int, *groups: tuple[str, ...]) -> None:
        plan, findings = parse_plan(PLAN, "depot.toml")
        assert plan is not None, findings
        people = people_named(NAMES)
        lanes = draw_lanes(plan.segment[segment], people, {})
        self.record, self._number = ClassRecord(plan), 0
        self.happens(ev.ClassOpened(0, "depot", "", "kg", people, None))
        self.happens(ev.SegmentChosen(0, segment))
        self.happens(ev.SegmentStarted(0, segment, 1, GO, lanes, groups))

    def happens(self, event: ev.Event) -> int:
        self.record = self.record.apply(self._number, event)
        self._number += 1
        return self._number - 1

    def lifts(self, lane: str, seconds: int, *, made: bool = True, **more: Any) -> int:
        load = parse_load("60 kg", "kg")
        return self.happens(ev.Lifted(GO + seconds * 1000, lane, load, made=made, **more))

    def whose(self) -> list[str]:
        assert self.record.sheet is not None
        return [turn.lane for turn in turns(self.record.sheet)]


def test_the_first_of_each_bar_begins_and_nothing_is_on_it() -> None:
    lifting = Lifting(SQUAT, ("Ilse", "Ian"), ("Bram", "Noor"))
    assert lifting.record.sheet is not None
    assert turns(lifting.record.sheet) == (
        Turn(("Ilse", "Ian"), None),
        Turn(("Bram", "Noor"), None),
    )


@pytest.mark.parametrize("made", [True, False])
def test_a_lift_and_a_miss_pass_it_on(made: bool) -> None:  # noqa: FBT001  a case
    lifting = Lifting(SQUAT, ("Ilse", "Ian"))
    lifting.lifts("Ilse", 5, made=made)
    assert lifting.record.sheet is not None
    assert turns(lifting.record.sheet) == (Turn(("Ian", "Ilse"), "Ilse"),)
    lifting.lifts("Ian", 20)
    assert lifting.whose() == ["Ilse"]


def test_a_tap_is_the_planned_load_and_passes_it_on_too() -> None:
    lifting = Lifting(SQUAT, ("Ilse", "Ian"))
    lifting.happens(ev.Tapped(GO + 5_000, "Ilse"))
    assert lifting.whose() == ["Ian"]


def test_three_go_round() -> None:
    lifting = Lifting(SINGLE, ("Ilse", "Ian", "Noor"))
    seen = []
    for second in range(5):
        seen += lifting.whose()
        lifting.lifts(seen[-1], second)
    assert seen == ["Ilse", "Ian", "Noor", "Ilse", "Ian"]
    assert lifting.record.sheet is not None
    assert turns(lifting.record.sheet) == (Turn(("Noor", "Ilse", "Ian"), "Ian"),)


def test_whoever_lifts_out_of_turn_hands_it_to_the_next_one() -> None:
    lifting = Lifting(SINGLE, ("Ilse", "Ian", "Noor"))
    lifting.lifts("Ian", 3)
    assert lifting.whose() == ["Noor"]


def test_a_lift_that_is_taken_back_gives_the_turn_back() -> None:
    lifting = Lifting(SQUAT, ("Ilse", "Ian"))
    entry = lifting.lifts("Ilse", 5)
    lifting.happens(ev.TookBack(GO + 6_000, entry))
    assert lifting.whose() == ["Ilse"]
    lifting.happens(ev.BroughtBack(GO + 7_000, entry))
    assert lifting.whose() == ["Ian"]


def test_a_lift_that_was_the_others_is_the_others() -> None:
    lifting = Lifting(SQUAT, ("Ilse", "Ian"))
    entry = lifting.lifts("Ilse", 5)
    lifting.happens(ev.Moved(GO + 6_000, entry, "Ian"))
    assert lifting.whose() == ["Ilse"]


def test_who_has_stopped_is_passed_over_and_with_all_stopped_there_is_no_turn() -> None:
    lifting = Lifting(SQUAT, ("Ilse", "Ian", "Noor"))
    lifting.lifts("Ilse", 5)
    lifting.happens(ev.StoppedHere(GO + 6_000, "Ian"))
    assert lifting.whose() == ["Noor"]
    lifting.happens(ev.StoppedHere(GO + 7_000, "Noor"))
    lifting.happens(ev.StoppedHere(GO + 8_000, "Ilse"))
    assert lifting.whose() == []


def test_who_has_done_all_sets_is_passed_over() -> None:
    lifting = Lifting(SQUAT, ("Ilse", "Ian"))
    for lane, second in (("Ilse", 5), ("Ian", 20), ("Ilse", 130)):
        lifting.lifts(lane, second)
    assert lifting.whose() == ["Ian"]
    lifting.lifts("Ian", 150)
    assert lifting.whose() == []


def test_an_earlier_set_that_is_put_right_is_no_other_lift() -> None:
    lifting = Lifting(SQUAT, ("Ilse", "Ian"))
    lifting.lifts("Ilse", 5)
    lifting.lifts("Ian", 20)
    lifting.lifts("Ian", 130)
    lifting.lifts("Ian", 140, interval=1)
    assert lifting.whose() == ["Ilse"]


def test_who_shares_with_nobody_has_no_turn() -> None:
    assert Lifting(SQUAT).whose() == []
