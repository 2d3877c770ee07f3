"""What somebody is to lift in place of what the plan says: said of a set, or of all."""

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.planning.decide_ahead import ChosenLoad, decide_load
from classclock.strength.chosen_loads import as_chosen, choose
from classclock.strength.class_loads import ClassLoads, Handled, LiftHistory
from classclock.tally import events as ev
from classclock.tally.class_lineup import lineup
from classclock.tally.lane_keys import people_named
from classclock.tally.load_flags import open_flags
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal
from classclock.units.loads import Load, parse_load

PLAN = """
title = "Depot Friday"

[[segment]]
name   = "Front squat"
format = "interval"
repeat = 5
steps  = [{ work = "2:00" }]
lift   = "front squat"
sets   = [{ reps = 3, percent = 50 }, { reps = 3, percent = 60 }, { reps = 1, percent = 70 }]
score  = "load"

[[segment]]
name   = "Heavy single"
format = "countdown"
time   = "12:00"
score  = "load"

[[segment]]
name   = "Headway"
format = "countdown"
time   = "12:00"
score  = "reps"
teams  = 2
"""
SQUAT, SINGLE, REPS = 0, 1, 2
KG = st.integers(1, 400).map(lambda amount: Load(Decimal(amount), "kg"))


def kg(amount: str) -> Load:
    return parse_load(amount, "kg")


@pytest.fixture(scope="module")
def plan() -> Plan:
    read, findings = parse_plan(PLAN, "depot.toml")
    assert read is not None, findings
    return read


@pytest.fixture(scope="module")
def loads(plan: Plan) -> ClassLoads:
    """Ilse has front squatted 100 kg, Bram nothing that is known."""
    ilse = {"front squat": Handled(kg("100"), kg("100"))}
    return ClassLoads(plan, Club().equipment, LiftHistory({"Ilse": ilse}))


@pytest.fixture
def opened(plan: Plan) -> ClassRecord:
    people = people_named(("Ilse", "Bram"))
    return ClassRecord(plan).apply(0, ev.ClassOpened(0, "depot", "", "kg", people, None))


def chosen(
    record: ClassRecord, who: str, number: int | None, load: str | None, segment: int = SQUAT
) -> ClassRecord:
    said = None if load is None else kg(load)
    return record.apply(1, ev.LoadChosen(1, who, segment, number, said))


def of(record: ClassRecord, loads: ClassLoads | None, who: str) -> list[str]:
    lane = next(lane for lane in lineup(record, loads) if lane.id == who)
    return [str(load) for load in lane.loads]


@given(st.lists(st.none() | KG, max_size=6), st.dictionaries(st.integers(1, 8), KG), st.none() | KG)
def test_what_is_said_of_a_set_holds_before_what_is_said_of_all_and_that_before_the_plan(
    planned: Sequence[Load | None], said: dict[int, Load], every: Load | None
) -> None:
    known = choose({}, None, every) if every else {}
    for number, one in said.items():
        known = choose(known, number, one)
    result = as_chosen(planned, known)
    assert len(result) >= len(planned)
    for number, load in enumerate(result, start=1):
        beyond = planned[min(number, len(planned)) - 1] if planned else None
        assert load == said.get(number, every or beyond)


def test_taken_back_it_is_as_planned() -> None:
    said = choose(choose({}, 1, kg("80")), 3, kg("90"))
    assert choose(said, 1, None) == {3: kg("90")}
    assert choose(said, None, None) == {}


def test_a_load_that_was_talked_over_stands_in_place_of_that_set_alone(
    opened: ClassRecord, loads: ClassLoads
) -> None:
    assert of(opened, loads, "Ilse") == ["50 kg", "60 kg", "70 kg"]
    assert of(chosen(opened, "Ilse", 1, "55"), loads, "Ilse") == ["55 kg", "60 kg", "70 kg"]
    assert of(chosen(opened, "Ilse", None, "55"), loads, "Ilse") == ["55 kg"] * 3
    assert of(chosen(opened, "Bram", 2, "40"), loads, "Bram") == ["None", "40 kg", "None"]
    assert of(chosen(opened, "Ilse", 5, "80"), loads, "Ilse")[2:] == ["70 kg", "70 kg", "80 kg"]
    assert of(chosen(opened, "Bram", 2, "40"), loads, "Ilse") == ["50 kg", "60 kg", "70 kg"]


def test_where_no_set_is_planned_one_load_goes_on(opened: ClassRecord) -> None:
    record = opened.apply(1, ev.SegmentChosen(1, SINGLE))
    assert of(chosen(record, "Ilse", 1, "55", SINGLE), None, "Ilse") == ["55 kg"]


def decided(record: ClassRecord, loads: ClassLoads | None, *asked: Any) -> ChosenLoad | Refusal:
    who, segment, number, load = asked
    return decide_load(record, ev.LoadChosen(1, who, segment, number, kg(load)), loads)


def test_a_load_far_above_what_is_known_is_to_be_looked_at_again(
    opened: ClassRecord, loads: ClassLoads
) -> None:
    heavy = decided(opened, loads, "Ilse", SQUAT, 1, "115")
    assert isinstance(heavy, ChosenLoad)
    assert heavy.remarks == ("look at it again",)
    fine = decided(opened, loads, "Ilse", SQUAT, 1, "100")
    assert isinstance(fine, ChosenLoad)
    assert fine.remarks == ()
    unknown = decided(opened, loads, "Bram", SQUAT, 1, "115")
    assert isinstance(unknown, ChosenLoad)
    assert unknown.remarks == ()
    flags = open_flags(chosen(opened, "Ilse", 1, "115"), loads, (SQUAT,))
    assert [flag.text for flag in flags] == [
        "115 kg is above the recorded maximum, 100 kg",
        "115 kg is more than 10 % above the heaviest so far, 100 kg",
    ]
    assert open_flags(opened, loads, (SQUAT,)) == ()


def test_what_was_lifted_earlier_in_the_class_is_known_too(
    opened: ClassRecord, loads: ClassLoads
) -> None:
    lane = next(lane for lane in lineup(opened, loads) if lane.id == "Bram")
    record = opened
    lifted: tuple[ev.Event, ...] = (
        ev.SegmentStarted(1, SQUAT, 1, 10_000, (lane,)),
        ev.Lifted(20_000, "Bram", kg("40"), made=True),
        ev.SegmentChosen(900_000, SQUAT, anew=True),
    )
    for number, event in enumerate(lifted):
        record = record.apply(number, event)
    fine, heavy = (decided(record, loads, "Bram", SQUAT, 1, load) for load in ("42.5", "45"))
    assert isinstance(fine, ChosenLoad)
    assert fine.remarks == ()
    assert isinstance(heavy, ChosenLoad)
    assert heavy.remarks == ("look at it again",)


@pytest.mark.parametrize(
    ("load", "remark"),
    [
        ("81", "81 kg can't be made with the club's plates: 80 kg or 82.5 kg can"),
        ("5", "5 kg is below every bar of the club. Take a dumbbell of 5 kg."),
    ],
)
def test_a_load_that_no_bar_makes_has_its_neighbours_said(
    opened: ClassRecord, loads: ClassLoads, load: str, remark: str
) -> None:
    answer = decided(opened, loads, "Bram", SQUAT, 1, load)
    assert isinstance(answer, ChosenLoad)
    assert answer.remarks == (remark,)


def test_loads_are_chosen_before_a_piece_of_loads_in_a_set_that_it_has(
    opened: ClassRecord, loads: ClassLoads
) -> None:
    assert isinstance(decided(opened, loads, "Ilse", REPS, 1, "80"), Refusal)
    assert isinstance(decided(opened, loads, "uri", SQUAT, 1, "80"), Refusal)
    assert isinstance(decided(opened, loads, "Ilse", SQUAT, 5, "80"), ChosenLoad)
    assert decided(opened, loads, "Ilse", SQUAT, 6, "80") == Refusal(
        "Front squat has sets 1 to 5: type one of them, as in 5:80i"
    )
    assert isinstance(decided(opened, loads, "Ilse", SINGLE, 99, "80"), ChosenLoad)
    assert isinstance(decided(opened, loads, "Ilse", SINGLE, 100, "80"), Refusal)
    begun = opened.apply(1, ev.SegmentStarted(1, SQUAT, 1, 10_000, lineup(opened, loads)))
    assert isinstance(decided(begun, loads, "Ilse", SQUAT, 1, "80"), Refusal)


def test_a_team_lifts_one_load(segment_of: Callable[..., Any], plan: Plan) -> None:
    lift = segment_of(format="countdown", time="9:00", score="load", teams=2)
    pair = plan.model_copy(update={"segment": (lift,)})
    people = people_named(("Ilse", "Bram"))
    record = ClassRecord(pair).apply(0, ev.ClassOpened(0, "depot", "", "kg", people, None))
    answer = decided(record, None, "Bram", 0, 1, "80")
    assert isinstance(answer, ChosenLoad)
    assert [event.person_id for event in answer.events] == ["Ilse", "Bram"]
    for number, event in enumerate(answer.events):
        record = record.apply(number, event)
    assert of(record, None, "Ilse") == ["80 kg"]
