"""What is short for those who are here, as they modify it, and what can be done about it."""

from collections.abc import Callable

import pytest

from classclock.plan.model import Plan
from classclock.plan.movements.completing import complete
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.planning.equipment_check import NOTHING_FITS
from classclock.planning.equipment_offers import EquipmentOffers
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Choice

LIBRARY = starter_library()
SIX = people_named(("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri"))
PLAN = """
title = "Depot Thursday"

[[segment]]
name   = "Step practice"
format = "countdown"
time   = "5:00"

  [[segment.station]]
  movement = "box step-over"
  reps     = 6

[[segment]]
name   = "Headway"
format = "rounds-in-time"
time   = "9:00"

  [[segment.station]]
  movement = "box step-over"
  reps     = 6

  [[segment.station]]
  movement = "bodyweight squat"
  reps     = 15
"""
PRACTICE, HEADWAY = 0, 1


@pytest.fixture(scope="module")
def plan() -> Plan:
    read, findings = parse_plan(PLAN, "headway.toml")
    assert read is not None, findings
    return complete(read, LIBRARY)


@pytest.fixture
def offers() -> Callable[[int], EquipmentOffers]:
    """The offers of a club with so many boxes."""
    return lambda boxes: EquipmentOffers(
        Club.model_validate({"equipment": {"boxes": boxes}}), LIBRARY
    )


def test_nothing_is_offered_where_there_is_enough(
    plan: Plan, offers: Callable[[int], EquipmentOffers]
) -> None:
    assert offers(6).of(plan, HEADWAY, SIX, {}) is None
    assert offers(3).of(plan, HEADWAY, SIX[:3], {}) is None


def test_what_is_short_comes_with_ways_that_give_each_a_place(
    plan: Plan, offers: Callable[[int], EquipmentOffers]
) -> None:
    offer = offers(3).of(plan, HEADWAY, SIX, {})
    assert offer is not None
    assert (offer.segment, offer.name, offer.people) == (HEADWAY, "Headway", 6)
    assert offer.short == "6 boxes are needed at once, 3 are here"
    assert offer.ways
    assert offer.otherwise == ""
    for way in offer.ways:
        assert way.shared.sharing is not None
        members = [ident for place in way.shared.sharing.places for ident in place.members]
        assert sorted(members) == sorted(person.id for person in SIX)
        assert len(way.brief) <= len(way.words)


def test_an_option_without_it_leaves_the_equipment_to_the_others(
    plan: Plan, offers: Callable[[int], EquipmentOffers]
) -> None:
    options = [option.name for option in plan.segment[HEADWAY].station[0].options]
    over_a_line = Choice((options.index("step over a line") + 1,))
    three = offers(3)
    assert three.of(plan, HEADWAY, SIX, {}) is not None
    chosen = {person.id: over_a_line for person in SIX[:2]}
    offer = three.of(plan, HEADWAY, SIX, chosen)
    assert offer is not None
    assert offer.short == "4 boxes are needed at once, 3 are here"
    chosen[SIX[2].id] = over_a_line
    assert three.of(plan, HEADWAY, SIX, chosen) is None


def test_where_nothing_is_counted_people_take_turns(
    plan: Plan, offers: Callable[[int], EquipmentOffers]
) -> None:
    offer = offers(3).of(plan, PRACTICE, SIX, {})
    assert offer is not None
    assert offer.ways == ()
    assert offer.otherwise == "take turns: nothing is counted here"


def test_without_any_an_easier_movement_is_offered_or_it_is_said_that_nothing_fits(
    plan: Plan, offers: Callable[[int], EquipmentOffers]
) -> None:
    offer = offers(0).of(plan, HEADWAY, SIX, {})
    assert offer is not None
    assert (offer.otherwise == NOTHING_FITS) == (not offer.ways)
    ways = [way.shared.sharing for way in offer.ways]
    assert all(any(place.options) for way in ways if way is not None for place in way.places)
