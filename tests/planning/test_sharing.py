"""Sharing equipment: everybody has a place, and the lanes are drawn as it was offered."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.model import Segment
from classclock.plan.movements.completing import complete_segment
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.sharing import sharing_of
from classclock.planning.staging import Modified, Staging, propose_staging
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Choice, Person
from classclock.tally.lineup import draw_lanes

NAMES = tuple(f"{first}{last}" for first in "abcdefghij" for last in "xyz")
LIBRARY = starter_library()
PIECE = """
title = "Depot"
[[segment]]
name = "Headway"
format = "rounds-in-time"
time = "15:00"
[[segment.station]]
movement = "push press"
reps = 9
[[segment.station]]
movement = "box step-over"
reps = 6
[[segment.station]]
movement = "bodyweight squat"
reps = 15
"""


def headway() -> Segment:
    plan, findings = parse_plan(PIECE, "depot.toml")
    assert plan is not None, findings
    return complete_segment(plan.segment[0], LIBRARY)


SEGMENT = headway()


@pytest.fixture
def here() -> Callable[[int], tuple[Person, ...]]:
    return lambda count: people_named(NAMES[:count])


@given(st.integers(2, 26), st.integers(1, 14), st.integers(1, 14))
def test_the_lanes_are_as_the_way_that_was_chosen_and_nobody_is_left_out(
    count: int, bars: int, boxes: int
) -> None:
    people = people_named(NAMES[:count])
    ids = [person.id for person in people]
    for way in propose_staging(SEGMENT, count, {"bar": bars, "box": boxes}, LIBRARY):
        places = sharing_of(way, SEGMENT, ids, {}).places
        lanes = draw_lanes(SEGMENT, people, {}, places)
        assert [ident for lane in lanes for ident in lane.members] == ids
        for heat, starts in enumerate(way.heats, start=1):
            assert tuple(lane.start_station for lane in lanes if lane.heat == heat) == starts
            keys = [lane.key for lane in lanes if lane.heat == heat]
            assert len(set(keys)) == len(keys), "no two in a heat have one key"
        for modified in way.modified:
            took = [lane for lane in lanes if lane.option(modified.station) == modified.option]
            assert len(took) == modified.lanes


def test_whoever_modifies_so_already_is_the_first_to_take_the_option_then_who_came_last(
    here: Callable[[int], tuple[Person, ...]],
) -> None:
    way = Staging(((0,) * 5,), 1, (Modified(1, 1, 2),), 0, 0, ())
    people = here(5)
    ids = [person.id for person in people]
    chosen = {ids[1]: Choice((0, 1)), ids[4]: Choice((2, 2))}
    lanes = draw_lanes(SEGMENT, people, chosen, sharing_of(way, SEGMENT, ids, chosen).places)
    assert [lane.option(1) for lane in lanes] == [0, 1, 0, 1, 2], "the last has her own option"
    assert lanes[4].option(0) == 2, "what else is chosen stays"


def test_whoever_comes_after_the_places_were_given_joins_the_last_heat(
    here: Callable[[int], tuple[Person, ...]],
) -> None:
    way = Staging(((0,) * 2, (1,) * 2), 1, (), 0, 0, ())
    ids = [person.id for person in here(4)]
    lanes = draw_lanes(SEGMENT, here(5), {}, sharing_of(way, SEGMENT, ids, {}).places)
    assert [(lane.heat, lane.start_station) for lane in lanes] == [
        (1, 0),
        (1, 0),
        (2, 1),
        (2, 1),
        (2, 0),
    ]


def test_whoever_has_gone_leaves_their_partner_the_lane(
    here: Callable[[int], tuple[Person, ...]],
) -> None:
    way = Staging(((0, 1),), 2, (), 0, 0, ())
    ids = [person.id for person in here(4)]
    places = sharing_of(way, SEGMENT, ids, {}).places
    lanes = draw_lanes(SEGMENT, (here(4)[0], *here(4)[2:]), {}, places)
    assert [lane.members for lane in lanes] == [(ids[0],), (ids[2], ids[3])]
