"""A bar that is shared, as the wall says it: whose turn it is, what changes, and for whom not."""

from typing import Any

import pytest

from classclock.plan.reading.plan_reading import parse_plan
from classclock.strength.class_loads import ClassLoads, LiftHistory
from classclock.tally import events as ev
from classclock.tally.class_lineup import all_heats
from classclock.tally.lane_keys import people_named
from classclock.tally.record import ClassRecord
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import parse_load
from classclock.wall.kept_off_content import beside_kept_off
from classclock.wall.lane_content import LaneContent, LaneContents

PLAN = """
title = "Depot"
[[segment]]
name = "Squat"
format = "interval"
repeat = 2
steps = [{ work = "2:00" }, { rest = "1:00" }]
lift = "front squat"
sets = [
  { reps = 3, load = { light = "60 kg", heavy = "80 kg" } },
  { reps = 3, load = { light = "62.5 kg", heavy = "85 kg" } },
]
score = "load"
"""
GO = 10_000
EQUIPMENT = Equipment(
    (Bar("20 kg bar", parse_load("20", "kg"), 6),),
    tuple((parse_load(plate, "kg"), 8) for plate in ("20", "10", "5", "2.5", "1.25")),
)


class Lifting:
    def __init__(self, **loads: str | None) -> None:
        """By name which of the plan's loads is theirs; all of them share one bar."""
        plan, findings = parse_plan(PLAN, "depot.toml")
        assert plan is not None, findings
        people = people_named(tuple(loads))
        record = ClassRecord(plan).apply(0, ev.ClassOpened(0, "depot", "", "kg", people, None))
        for name, load in loads.items():
            record = record.apply(0, ev.OptionChosen(0, name, 0, (), load, 0))
        lanes = all_heats(record, ClassLoads(plan, EQUIPMENT, LiftHistory()))
        self.record = record.apply(9, ev.SegmentStarted(0, 0, 1, GO, lanes, (tuple(loads),)))
        self._contents = LaneContents(EQUIPMENT)
        self._number = 10

    def lifts(self, lane: str, second: int, **more: Any) -> None:
        event = ev.Lifted(GO + second * 1000, lane, None, made=True)
        if "load" in more:
            event = ev.Lifted(GO + second * 1000, lane, parse_load(more["load"], "kg"), made=True)
        self.record = self.record.apply(self._number, event)
        self._number += 1

    def says(self, second: int) -> dict[str, LaneContent]:
        sheet = self.record.sheet
        assert sheet is not None
        lanes = self._contents.at(sheet, (sheet,), GO + second * 1000)
        return {lane.name: lane for lane in lanes}


def planned(lifting: Lifting, second: int) -> list[str]:
    return [lane.planned[0] if lane.planned else "" for lane in lifting.says(second).values()]


def on_the_bar(lifting: Lifting, second: int) -> list[tuple[str, str]]:
    return [(lane.load, lane.plates) for lane in lifting.says(second).values()]


@pytest.fixture
def pair() -> Lifting:
    return Lifting(Ilse="light", Ian="heavy")


def test_whose_turn_it_is_is_said_with_the_plates_and_who_waits_with_the_load(
    pair: Lifting,
) -> None:
    said = pair.says(1)
    assert [lane.turn for lane in said.values()] == ["now", "waits"]
    assert planned(pair, 1) == ["now 60 kg: 20", "80 kg after Ilse"]


def test_after_a_lift_it_is_the_others_turn_and_what_changes_is_said(pair: Lifting) -> None:
    pair.lifts("Ilse", 5)
    assert [lane.turn for lane in pair.says(6).values()] == ["waits", "now"]
    assert planned(pair, 6) == ["62.5 kg after Ian", "now 80 kg: on 10"]
    pair.lifts("Ian", 20)
    assert planned(pair, 21) == ["now 62.5 kg: on 1.25, off 10", "85 kg after Ilse"]
    pair.lifts("Ilse", 190)
    pair.lifts("Ian", 200)
    assert {lane.turn for lane in pair.says(201).values()} == {""}, "all is lifted"


def test_large_stands_the_load_and_what_changes_on_the_bar(pair: Lifting) -> None:
    assert on_the_bar(pair, 1) == [("60", "20"), ("80", "waits")]
    pair.lifts("Ilse", 5)
    assert on_the_bar(pair, 6) == [("62.5", "waits"), ("80", "+10")]
    pair.lifts("Ian", 20)
    assert on_the_bar(pair, 21) == [("62.5", "+1.25 -10"), ("85", "waits")]


def test_room_is_kept_for_the_widest_that_a_lane_may_come_to(pair: Lifting) -> None:
    rooms = {lane.room for second in (1, 100, 300) for lane in pair.says(second).values()}
    pair.lifts("Ilse", 5)
    pair.lifts("Ian", 20)
    pair.lifts("Ilse", 190)
    pair.lifts("Ian", 200)
    rooms |= {lane.room for lane in pair.says(201).values()}
    assert {(room.load, room.plates) for room in rooms} == {
        ("62.5", "+10 +2.5 -1.25"),
        ("80", "+10 +2.5 -1.25"),
    }


def test_of_three_each_waits_for_the_one_before() -> None:
    three = Lifting(Ilse="light", Ian="heavy", Noor="light")
    assert planned(three, 1) == ["now 60 kg: 20", "80 kg after Ilse", "60 kg after Ian"]
    three.lifts("Ilse", 5)
    assert planned(three, 6) == ["62.5 kg after Noor", "now 80 kg: on 10", "60 kg after Ian"]


def test_what_was_lifted_is_on_the_bar_whatever_was_planned(pair: Lifting) -> None:
    pair.lifts("Ilse", 5, load="65 kg")
    assert planned(pair, 6)[1] == "now 80 kg: on 10, off 2.5"
    odd = Lifting(Ilse="light", Ian="heavy")
    odd.lifts("Ilse", 5, load="61 kg")
    assert planned(odd, 6)[1] == "now 80 kg: 20 + 10", "no plates make 61: the whole bar is said"


def test_a_load_that_nobody_knows_has_its_turn_all_the_same() -> None:
    lifting = Lifting(Ilse="light", Uri=None)
    assert planned(lifting, 1) == ["now 60 kg: 20", "after Ilse"]
    lifting.lifts("Ilse", 5)
    assert planned(lifting, 6) == ["62.5 kg after Uri", "now"]


def test_who_shares_with_somebody_kept_off_the_wall_has_no_change_that_tells_their_load(
    pair: Lifting,
) -> None:
    pair.lifts("Ilse", 5)
    ilse, ian = pair.says(6).values()
    assert beside_kept_off(ian).planned == ("now 80 kg",)
    assert beside_kept_off(ilse).planned == ("62.5 kg",)
    assert (beside_kept_off(ian).plates, beside_kept_off(ilse).plates) == ("", "waits")
