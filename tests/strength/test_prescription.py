from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from pydantic import TypeAdapter

from classclock.plan.model import Segment
from classclock.strength.bar_picture import side_words
from classclock.strength.prescription import Prescription, prescription, uses_a_bar
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]
SETS = [{"reps": 3, "percent": 65}, {"reps": 3, "percent": 72.5}, {"reps": 2, "percent": 80}]


def segment(**fields: Any) -> Segment:
    base = {"name": "Strength", "format": "countdown", "time": "12:00", "lift": "front squat"}
    read: Segment = TypeAdapter(Segment).validate_python({**base, **fields})
    return read


def prescribed(
    equipment: Equipment, maximum: Load | None, name: str | None = None, **fields: Any
) -> Prescription:
    answer = prescription(segment(**fields), maximum, equipment, name)
    assert answer is not None
    return answer


def test_each_set_has_its_load_its_plates_and_its_shortfall(depot: Equipment, kg: AsLoad) -> None:
    ilse = prescribed(depot, kg("100"), sets=SETS)
    assert ilse.loads == (kg("65"), kg("72.5"), kg("80"))
    loadings = [each.working.loading for each in ilse.sets if each.working is not None]
    words = [side_words(loading) for loading in loadings if loading is not None]
    assert words == ["20 + 2.5 a side", "20 + 5 + 1.25 a side", "20 + 10 a side"]
    assert [each.reps for each in ilse.sets] == [3, 3, 2]
    assert ilse.words == ""


def test_warm_ups_lead_to_the_first_set(depot: Equipment, kg: AsLoad) -> None:
    ilse = prescribed(depot, kg("100"), sets=SETS)
    assert [step.load for step in ilse.warm_ups] == [kg("25"), kg("37.5"), kg("50")]


def test_nobody_is_given_a_load_without_a_record(depot: Equipment) -> None:
    newcomer = prescribed(depot, None, sets=SETS)
    assert newcomer.loads == (None, None, None)
    assert newcomer.words == "no record: choose the load together"
    assert newcomer.warm_ups == ()


def test_a_load_in_the_plan_needs_no_record(depot: Equipment, kg: AsLoad) -> None:
    noor = prescribed(depot, None, sets=[{"reps": 5, "load": "61 kg"}])
    assert noor.loads == (kg("60"),)
    assert noor.words == ""


@pytest.mark.parametrize(("name", "load"), [("heavier", "60"), ("lighter", "40")])
def test_of_the_plans_loads_everybody_has_their_own(
    depot: Equipment, kg: AsLoad, name: str, load: str
) -> None:
    both = {"heavier": "60 kg", "lighter": "40 kg"}
    assert prescribed(depot, None, name, sets=[{"reps": 5}], load=both).loads == (kg(load),)
    assert prescribed(depot, None, sets=[{"reps": 5}], load=both).loads == (None,)


def test_a_sets_own_load_comes_before_the_segments(depot: Equipment, kg: AsLoad) -> None:
    piet = prescribed(depot, None, sets=[{"reps": 5, "load": "50 kg"}, {"reps": 5}], load="40 kg")
    assert piet.loads == (kg("50"), kg("40"))


def test_a_load_held_in_the_hands_stands_as_planned(depot: Equipment, kg: AsLoad) -> None:
    goblet = prescribed(depot, None, lift="goblet squat", sets=[{"reps": 6, "load": "8 kg"}])
    assert goblet.loads == (kg("8"),)
    assert goblet.sets[0].working is None


def test_a_percentage_without_a_bar_names_what_there_is_below_it(
    depot: Equipment, kg: AsLoad
) -> None:
    press = prescribed(depot, kg("15"), lift="dumbbell press", sets=[{"reps": 6, "percent": 75}])
    working = press.sets[0].working
    assert press.loads == (None,)
    assert working is not None
    assert working.lighter is not None
    assert working.lighter.dumbbell == kg("10")


def test_a_segment_without_sets_prescribes_nothing(depot: Equipment, kg: AsLoad) -> None:
    assert prescription(segment(), kg("100"), depot) is None


def test_the_percentage_is_taken_as_it_was_written(depot: Equipment, kg: AsLoad) -> None:
    odd = prescribed(depot, kg("100"), sets=[{"reps": 1, "percent": 67.1}])
    assert odd.sets[0].percent == Decimal("67.1")
    assert odd.sets[0].target == kg("67.1")


@pytest.mark.parametrize("lift", ["front squat", "Deadlift", "strict press", "power clean"])
def test_a_lift_is_done_with_a_bar_unless_its_name_says_otherwise(lift: str) -> None:
    assert uses_a_bar(lift)


@pytest.mark.parametrize("lift", ["goblet squat", "Dumbbell row", "sandbag carry"])
def test_the_name_says_what_is_done_without_a_bar(lift: str) -> None:
    assert not uses_a_bar(lift)
