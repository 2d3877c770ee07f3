"""Who shares a bar or a tally: what is set, swapped, refused, and drawn."""

from typing import Any

import pytest

from classclock.plan.model import Plan
from classclock.tally import events as ev
from classclock.tally.class_lineup import all_heats, partners_now
from classclock.tally.decide_groups import (
    AS_PLANNED,
    SharedWay,
    decide_swap,
    decide_way,
)
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Place, Sharing, Teams
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal

PIECE = 1
NAMES = ("Ilse", "Bram", "Noor", "Piet", "Tuva")


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=1_000):
        record = record.apply(number, event)
    return record


def done(record: ClassRecord, decided: Any) -> ClassRecord:
    assert not isinstance(decided, Refusal), decided.text
    return folded(record, *decided)


def names(record: ClassRecord) -> list[str]:
    return [lane.name for lane in all_heats(record, None)]


@pytest.fixture
def board(depot: Plan) -> ClassRecord:
    people = people_named(NAMES)
    opened = ev.ClassOpened(0, "depot", "", "kg", people, None)
    return folded(ClassRecord(depot), opened, ev.SegmentChosen(0, PIECE))


def test_partners_keep_their_lanes_and_keys_and_stand_beside_each_other(board: ClassRecord) -> None:
    groups = (("Noor", "Ilse"), ("Bram", "Tuva", "Piet"))
    shared = done(board, decide_way(board, PIECE, SharedWay(partners=groups), 1))
    lanes = all_heats(shared, None)
    assert [lane.name for lane in lanes] == ["Noor", "Ilse", "Bram", "Tuva", "Piet"]
    assert [lane.key for lane in lanes] == ["n", "i", "b", "t", "p"]
    assert all(lane.members == (lane.id,) for lane in lanes)
    assert partners_now(shared, lanes) == groups
    nobody = done(shared, decide_way(shared, PIECE, AS_PLANNED, 2))
    assert (names(nobody), nobody.partners) == (list(NAMES), {})


def test_partners_are_those_who_are_here_and_in_one_heat(board: ClassRecord) -> None:
    groups = (("Ilse", "Bram"), ("Noor", "Piet", "Tuva"))
    heats = Sharing("two heats", tuple(Place((name,), 1 + (name == "Tuva")) for name in NAMES))
    shared = folded(
        board,
        ev.PartnersSet(1, PIECE, groups),
        ev.EquipmentShared(1, PIECE, heats),
        ev.PersonLeft(2, "Bram"),
    )
    assert partners_now(shared, all_heats(shared, None)) == (("Noor", "Piet"),)


def test_teams_share_a_lane_and_who_is_in_none_comes_after(board: ClassRecord) -> None:
    made = Teams((("Tuva", "Ilse"), ("Noor", "Bram")), "drawn by lot")
    shared = done(board, decide_way(board, PIECE, SharedWay(teams=made, seed=7), 1))
    assert names(shared) == ["Tuva + Ilse", "Noor + Bram", "Piet"]
    assert shared.teams[PIECE] == made
    gone = folded(shared, ev.PersonLeft(2, "Tuva"))
    assert names(gone) == ["Ilse", "Noor + Bram", "Piet"]
    assert names(folded(shared, ev.TeamsSet(2, PIECE, ()))) == list(NAMES)


@pytest.mark.parametrize(
    ("groups", "why"),
    [
        ((("Ilse", "Zoë"),), "whoever shares has to be here"),
        ((("Ilse", "Bram"), ("Bram", "Noor")), "nobody is in two groups"),
    ],
)
def test_what_cant_be_is_refused_with_what_to_do(
    board: ClassRecord, groups: tuple[tuple[str, ...], ...], why: str
) -> None:
    for decided in (
        decide_way(board, PIECE, SharedWay(partners=groups), 1),
        decide_way(board, PIECE, SharedWay(teams=Teams(groups)), 1),
    ):
        assert isinstance(decided, Refusal)
        assert decided.text.startswith(why)


def test_what_has_been_started_goes_on_as_it_began(board: ClassRecord) -> None:
    started = folded(board, ev.SegmentStarted(1, PIECE, 1, 11, all_heats(board, None)))
    for decided in (
        decide_way(started, PIECE, AS_PLANNED, 2),
        decide_swap(started, "Ilse", "Bram", 2),
    ):
        assert decided == Refusal("this piece has been started: it goes on as it began")
    first = folded(board, ev.SegmentChosen(1, 0), ev.SegmentStarted(1, 0, 1, 11, ()))
    assert isinstance(decide_way(first, 0, AS_PLANNED, 2), Refusal)
    anew = folded(started, ev.SegmentChosen(3, PIECE, anew=True))
    pair = SharedWay(partners=(("Ilse", "Bram"),))
    assert not isinstance(decide_way(anew, PIECE, pair, 4), Refusal)


PARTNERS = (("Ilse", "Bram"), ("Noor", "Piet"))
WAYS = [
    ev.PartnersSet(1, PIECE, PARTNERS),
    ev.TeamsSet(1, PIECE, PARTNERS, "drawn by lot", 7),
    ev.EquipmentShared(1, PIECE, Sharing("heats", tuple(Place(pair) for pair in PARTNERS))),
]


@pytest.mark.parametrize("way", WAYS, ids=lambda way: type(way).__name__)
@pytest.mark.parametrize(
    ("first", "second"), [("Ilse", "Noor"), ("Ilse", "Bram"), ("Ilse", "Tuva"), ("Tuva", "Piet")]
)
def test_two_change_places_and_the_same_again_puts_them_back(
    board: ClassRecord, way: ev.Event, first: str, second: str
) -> None:
    shared = folded(board, way)
    before = [lane.members for lane in all_heats(shared, None)]
    swapped = done(shared, decide_swap(shared, first, second, 2))
    after = [lane.members for lane in all_heats(swapped, None)]
    assert after != before
    back = done(swapped, decide_swap(swapped, second, first, 3))
    assert [lane.members for lane in all_heats(back, None)] == before
    assert sorted(one for lane in after for one in lane) == sorted(NAMES)


def test_a_swap_of_partners_is_a_swap_of_their_heats_too(board: ClassRecord) -> None:
    heats = Sharing("heats", tuple(Place((n,), 1 + at // 2) for at, n in enumerate(NAMES)))
    shared = folded(board, ev.PartnersSet(1, PIECE, PARTNERS), ev.EquipmentShared(1, PIECE, heats))
    swapped = done(shared, decide_swap(shared, "Bram", "Noor", 2))
    lanes = {lane.name: lane.heat for lane in all_heats(swapped, None)}
    assert (lanes["Noor"], lanes["Bram"]) == (1, 2)
    assert swapped.partners[PIECE] == (("Ilse", "Noor"), ("Bram", "Piet"))
    assert swapped.shared[PIECE].way == "heats, then changed by hand"


def test_a_swap_changes_the_plans_own_teams_too(board: ClassRecord) -> None:
    piece = board.plan.segment[PIECE].model_copy(update={"teams": 2})
    segments = [*board.plan.segment[:PIECE], piece, *board.plan.segment[PIECE + 1 :]]
    pairs = ClassRecord(board.plan.model_copy(update={"segment": tuple(segments)}))
    pairs = folded(
        pairs,
        ev.ClassOpened(0, "depot", "", "kg", people_named(NAMES), None),
        ev.SegmentChosen(0, PIECE),
    )
    assert names(pairs) == ["Ilse + Bram", "Noor + Piet", "Tuva"]
    swapped = done(pairs, decide_swap(pairs, "Bram", "Tuva", 2))
    assert names(swapped) == ["Ilse + Tuva", "Noor + Piet", "Bram"]
    assert swapped.teams[PIECE].how == "as they came, then changed by hand"
    again = done(swapped, decide_swap(swapped, "Noor", "Ilse", 3))
    assert again.teams[PIECE].how == "as they came, then changed by hand"


@pytest.mark.parametrize(
    ("first", "second", "why"),
    [
        ("Ilse", "Ilse", "> and two letters"),
        ("Ilse", "Zoë", "whoever shares has to be here"),
        ("Ilse", "Bram", "Ilse and Bram share with nobody here: ctrl+t"),
    ],
)
def test_a_swap_that_means_nothing_is_refused(
    board: ClassRecord, first: str, second: str, why: str
) -> None:
    decided = decide_swap(board, first, second, 1)
    assert isinstance(decided, Refusal)
    assert decided.text.startswith(why)


def test_a_way_is_taken_whole_and_takes_the_place_of_another(board: ClassRecord) -> None:
    heats = Sharing("heats", tuple(Place((name,)) for name in NAMES))
    both = SharedWay(heats, PARTNERS)
    shared = done(board, decide_way(board, PIECE, both, 1))
    assert (shared.shared[PIECE], shared.partners[PIECE]) == (heats, PARTNERS)
    teams = SharedWay(teams=Teams(PARTNERS, "drawn by lot"), seed=7)
    decided = decide_way(shared, PIECE, teams, 2)
    assert decided == (
        ev.EquipmentShared(2, PIECE, None),
        ev.PartnersSet(2, PIECE, ()),
        ev.TeamsSet(2, PIECE, PARTNERS, "drawn by lot", 7),
    )
    planned = done(done(shared, decided), decide_way(done(shared, decided), PIECE, AS_PLANNED, 3))
    assert (planned.shared, planned.partners, planned.teams) == ({}, {}, {})
    assert decide_way(planned, PIECE, AS_PLANNED, 4) == ()
