"""Who lifts what in a class, from what each has lifted before."""

from collections.abc import Callable

import pytest

from classclock.book.asking.lift_reading import has_lifts
from classclock.plan.reading.plan_reading import parse_plan
from classclock.strength.class_loads import ClassLoads, Handled, LiftHistory, LiftPlan
from classclock.strength.flags import NO_RECORD
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]
PLAN = """
title = "Depot"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "5:00"
[[segment]]
name = "Squat"
format = "interval"
repeat = 2
steps = [{ work = "2:00" }]
lift = "Front Squat"
sets = [{ reps = 3, percent = 65 }, { reps = 3, percent = 80 }]
score = "load"
[[segment]]
name = "Pull"
format = "interval"
repeat = 1
steps = [{ work = "2:00" }]
lift = "deadlift"
sets = [{ reps = 3, load = { heavier = "100 kg", lighter = "60 kg" } }]
score = "load"
[[segment]]
name = "Single"
format = "countdown"
time = "12:00"
lift = "front squat"
score = "load"
[[segment]]
name = "Heavy"
format = "countdown"
time = "12:00"
lift = "front squat"
score = "load"
load = "102.5 kg"
"""


@pytest.fixture
def loads(depot: Equipment, kg: AsLoad) -> ClassLoads:
    plan, findings = parse_plan(PLAN, "depot.toml")
    assert plan is not None, findings
    squat = {"front squat": Handled(kg("100"), kg("90"))}
    pull = {"deadlift": Handled(kg("80"), kg("80"))}
    history = LiftHistory({"ilse": squat | pull, "bram": {}}, {"ilse": "ilse"})
    return ClassLoads(plan, depot, history)


def planned(loads: ClassLoads, segment: int, name: str, load: str | None = None) -> LiftPlan:
    found = loads.of(segment, name.lower(), name, load)
    assert found is not None
    return found


def test_each_set_is_a_percentage_of_the_athlete_s_own_maximum(
    loads: ClassLoads, kg: AsLoad
) -> None:
    ilse = planned(loads, 1, "Ilse")
    assert ilse.loads == (kg("65"), kg("80"))
    assert ilse.heaviest == kg("90")
    assert not ilse.flags
    assert ilse.prescription is not None
    assert ilse.prescription.words != NO_RECORD


def test_without_a_record_a_share_of_a_maximum_is_to_be_chosen_together(
    loads: ClassLoads,
) -> None:
    bram = planned(loads, 1, "Bram")
    assert bram.loads == (None, None)
    assert bram.prescription is not None
    assert bram.prescription.words == NO_RECORD
    assert bram.flags == (), "there is no load to look at"
    assert bram.to_choose
    assert not planned(loads, 1, "Ilse").to_choose


def test_the_plan_s_heavier_load_above_the_maximum_is_flagged_for_whoever_takes_it(
    loads: ClassLoads,
) -> None:
    assert planned(loads, 2, "Ilse", "heavier").flags == (
        "100 kg is above the recorded maximum, 80 kg",
        "100 kg is more than 10 % above the heaviest so far, 80 kg",
    )
    assert planned(loads, 2, "Ilse", "lighter").flags == ()


def test_a_planned_load_for_somebody_without_a_record_is_flagged(loads: ClassLoads) -> None:
    assert planned(loads, 2, "Bram", "heavier").flags == (NO_RECORD,)
    assert planned(loads, 2, "Bram").flags == (), "none is chosen yet"
    assert not planned(loads, 2, "Bram").to_choose
    assert planned(loads, 4, "Bram").flags == (NO_RECORD,), "no sets, but a load"
    assert planned(loads, 4, "Ilse").flags == (
        "102.5 kg is above the recorded maximum, 100 kg",
        "102.5 kg is more than 10 % above the heaviest so far, 90 kg",
    )


def test_of_loads_that_were_chosen_together_no_missing_record_is_flagged(
    loads: ClassLoads, kg: AsLoad
) -> None:
    bram, ilse = planned(loads, 1, "Bram"), planned(loads, 1, "Ilse")
    assert bram.flags_on([kg("60")]) == ()
    assert ilse.flags_on([kg("95"), None]) == ()
    assert ilse.flags_on([kg("100")]) == (
        "100 kg is more than 10 % above the heaviest so far, 90 kg",
    )


def test_what_was_made_today_counts_as_handled(loads: ClassLoads, kg: AsLoad) -> None:
    bram, ilse = planned(loads, 1, "Bram"), planned(loads, 1, "Ilse")
    assert ilse.flags_on([kg("100")], today=[kg("80"), kg("95")]) == ()
    assert bram.flags_on([kg("60")], today=[kg("50")]) == (
        "60 kg is more than 10 % above the heaviest so far, 50 kg",
    )


def test_a_lift_without_sets_still_knows_the_heaviest(loads: ClassLoads, kg: AsLoad) -> None:
    ilse = planned(loads, 3, "Ilse")
    assert ilse.loads == ()
    assert ilse.heaviest == kg("90")


def test_somebody_known_by_name_alone_has_their_record(loads: ClassLoads, kg: AsLoad) -> None:
    rehearsed = loads.of(1, "ILSE", "ILSE")
    assert rehearsed is not None
    assert rehearsed.loads == (kg("65"), kg("80"))


def test_somebody_with_an_id_has_no_record_of_another_of_that_name(loads: ClassLoads) -> None:
    late = loads.of(1, "another-id", "Ilse")
    assert late is not None
    assert late.loads == (None, None)


def test_nothing_is_lifted_in_a_warm_up(loads: ClassLoads) -> None:
    assert loads.of(0, "ilse", "Ilse") is None


def test_a_plan_says_whether_anybody_lifts() -> None:
    plan, _ = parse_plan(PLAN, "depot.toml")
    assert plan is not None
    assert has_lifts(plan)
    warm_up = plan.model_copy(update={"segment": plan.segment[:1]})
    assert not has_lifts(warm_up)
