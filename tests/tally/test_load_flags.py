"""Which loads the coach is to look at, and which nobody has looked at yet."""

from decimal import Decimal

import pytest
from msgspec.structs import replace

from classclock.plan.lift_set import LiftSet
from classclock.plan.reading.plan_reading import parse_plan
from classclock.strength.class_loads import ClassLoads, Handled, LiftHistory
from classclock.strength.flags import NO_RECORD
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.load_flags import load_flags, loads_to_choose, open_flags
from classclock.tally.record import ClassRecord
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load

PLAN = """
title = "Depot Wednesday"

[[segment]]
name   = "Warm-up"
format = "countdown"
time   = "5:00"

[[segment]]
name   = "Pull"
format = "interval"
repeat = 1
steps  = [{ work = "2:00" }]
lift   = "deadlift"
sets   = [{ reps = 3, load = { heavier = "100 kg", lighter = "60 kg" } }]
score  = "load"
"""
WARM_UP, PULL = 0, 1


def kg(amount: int) -> Load:
    return Load(Decimal(amount), "kg")


HANDLED = {"deadlift": Handled(kg(98), kg(98))}
BARS = Equipment((Bar("20 kg", kg(20), 4),), ((kg(20), 8),), None, (), ())


@pytest.fixture
def record() -> ClassRecord:
    """Ilse and Bram, who have both pulled 98 kg at most, take the heavier load; Noor doesn't."""
    plan, findings = parse_plan(PLAN, "depot.toml")
    assert plan is not None, findings
    people = people_named(("Ilse", "Bram", "Noor"))
    return folded(
        ClassRecord(plan, people=people),
        ev.OptionChosen(0, "Ilse", PULL, (), "heavier", 0),
        ev.OptionChosen(0, "Bram", PULL, (), "heavier", 0),
        ev.OptionChosen(0, "Noor", PULL, (), "lighter", 0),
    )


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events):
        record = record.apply(number, event)
    return record


def loads_for(record: ClassRecord) -> ClassLoads:
    known = {person.id: HANDLED for person in record.people}
    return ClassLoads(record.plan, BARS, LiftHistory(known))


def test_nothing_is_flagged_before_anybody_has_read_what_was_lifted(record: ClassRecord) -> None:
    assert load_flags(record, None, record.to_come) == ()


def test_each_load_above_what_its_athlete_handled_is_flagged_with_whose_it_is(
    record: ClassRecord,
) -> None:
    flags = load_flags(record, loads_for(record), record.to_come)
    assert [(flag.key, flag.name, flag.segment, flag.piece) for flag in flags] == [
        ("i", "Ilse", PULL, "Pull"),
        ("b", "Bram", PULL, "Pull"),
    ]
    assert {flag.text for flag in flags} == {"100 kg is above the recorded maximum, 98 kg"}


def test_a_planned_load_is_flagged_for_whoever_has_no_record(record: ClassRecord) -> None:
    loads = ClassLoads(record.plan, BARS, LiftHistory({"Ilse": HANDLED}))
    flags = load_flags(record, loads, record.to_come)
    assert [(flag.name, flag.text) for flag in flags] == [
        ("Ilse", "100 kg is above the recorded maximum, 98 kg"),
        ("Bram", NO_RECORD),
        ("Noor", NO_RECORD),
    ]


def test_a_share_of_a_maximum_that_nobody_knows_is_to_be_chosen(record: ClassRecord) -> None:
    pull = record.plan.segment[PULL]
    shares = pull.model_copy(update={"sets": (LiftSet(reps=3, percent=80),)})
    plan = record.plan.model_copy(update={"segment": (record.plan.segment[WARM_UP], shares)})
    by_share = replace(record, plan=plan)
    loads = ClassLoads(plan, BARS, LiftHistory({"Ilse": HANDLED}))
    assert load_flags(by_share, loads, by_share.to_come) == (), "there is no load to look at"
    told = loads_to_choose(by_share, loads, by_share.to_come)
    assert [(flag.name, flag.text) for flag in told] == [("Bram", NO_RECORD), ("Noor", NO_RECORD)]
    assert loads_to_choose(by_share, None, by_share.to_come) == ()
    assert loads_to_choose(record, loads_for(record), record.to_come) == ()


def test_a_team_chooses_its_load_together_and_is_not_flagged(record: ClassRecord) -> None:
    pull = record.plan.segment[PULL].model_copy(update={"teams": 2})
    plan = record.plan.model_copy(update={"segment": (record.plan.segment[WARM_UP], pull)})
    in_teams = replace(record, plan=plan)
    assert load_flags(in_teams, loads_for(in_teams), in_teams.to_come) == ()


def test_an_acknowledged_flag_is_open_no_longer_and_the_other_is(record: ClassRecord) -> None:
    loads = loads_for(record)
    ilses, brams = open_flags(record, loads, record.to_come)
    read = folded(record, ev.FlagAcknowledged(500, "Ilse", PULL, ilses.text))
    assert open_flags(read, loads, read.to_come) == (brams,)
    assert load_flags(read, loads, read.to_come) == (ilses, brams)


def test_a_segment_that_is_past_is_not_to_come(record: ClassRecord) -> None:
    assert list(record.to_come) == [WARM_UP, PULL]
    assert list(folded(record, ev.SegmentChosen(500, PULL)).to_come) == [PULL]
