"""Who leaves is in no later lane, keeps their key, and may be back: in any order of it all."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.plan.model import Plan
from classclock.tally import events as ev
from classclock.tally.class_lineup import all_heats, lineup, sharing_a_lane
from classclock.tally.commands import Next, Start
from classclock.tally.decide_clock import decide_clock
from classclock.tally.decide_people import (
    decide_back,
    decide_change,
    decide_joining,
    decide_leaving,
)
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Person, Place, Sharing
from classclock.tally.lineup import draw_lanes
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.refusal import Refusal

WARM_UP, PIECE, COOL_DOWN = 0, 1, 2
GO = 20_000
OVER = GO + 17 * 60_000
NAMES = ("Ilse", "Bram", "Noor")


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=1_000):
        record = record.apply(number, event)
    return record


def opened(plan: Plan, *names: str) -> ClassRecord:
    people = people_named(names or NAMES)
    return folded(ClassRecord(plan), ev.ClassOpened(0, "depot", "", "kg", people, None))


def started(record: ClassRecord, segment: int, heat: int = 1) -> ClassRecord:
    chosen = folded(record, ev.SegmentChosen(5_000, segment, heat))
    drawn = all_heats(chosen, None) if segment == PIECE else ()
    lanes = tuple(lane for lane in drawn if lane.heat == heat)
    return folded(chosen, ev.SegmentStarted(10_000, segment, heat, GO, lanes))


def on_board(record: ClassRecord, segment: int) -> ClassRecord:
    return folded(record, ev.SegmentChosen(OVER, segment))


def names(record: ClassRecord) -> list[str]:
    return [lane.name for lane in lineup(record, None)]


@pytest.fixture
def pairs(segment_of: Callable[..., object], turntable: dict[str, object], depot: Plan) -> Plan:
    piece = segment_of(**{**turntable, "teams": 2})
    return depot.model_copy(update={"segment": (depot.segment[0], piece, piece)})


def test_who_left_has_no_lane_and_the_others_stay(depot: Plan) -> None:
    record = on_board(folded(opened(depot), ev.PersonLeft(1, "Bram")), PIECE)
    assert names(record) == ["Ilse", "Noor"]
    assert [person.name for person in record.here] == ["Ilse", "Noor"]
    assert record.left == {"Bram": None}, "before the first piece"


def test_the_piece_after_which_somebody_left_is_known(depot: Plan) -> None:
    record = folded(started(opened(depot), PIECE), ev.PersonLeft(OVER, "Bram"))
    assert record.left == {"Bram": RunKey(PIECE)}
    later = folded(started(record, COOL_DOWN), ev.PersonLeft(OVER, "Noor"))
    assert later.left["Noor"] == RunKey(PIECE), "a cool-down isn't scored"


def test_who_left_stands_in_the_piece_that_they_did(depot: Plan) -> None:
    before = started(opened(depot), PIECE)
    after = folded(before, ev.PersonLeft(OVER, "Bram"))
    assert after.runs == before.runs


def test_who_is_back_has_their_place_and_their_key(depot: Plan) -> None:
    gone = folded(opened(depot), ev.PersonLeft(1, "Bram"))
    back = on_board(folded(gone, ev.PersonBack(2, "Bram")), PIECE)
    assert [(lane.name, lane.key) for lane in lineup(back, None)] == [
        ("Ilse", "i"),
        ("Bram", "b"),
        ("Noor", "n"),
    ]
    assert back.left == {}


def test_a_pair_goes_on_with_the_rest_and_the_other_pairs_stay(pairs: Plan) -> None:
    record = opened(pairs, "Pavel", "Tom", "Ilse", "Bram")
    record = on_board(folded(record, ev.PersonLeft(1, "Pavel")), PIECE)
    lanes = lineup(record, None)
    assert [(lane.name, lane.key, lane.members) for lane in lanes] == [
        ("Tom", "t", ("Tom",)),
        ("Ilse + Bram", "i", ("Ilse", "Bram")),
    ]


def test_a_pair_that_left_whole_has_no_lane(pairs: Plan) -> None:
    record = opened(pairs, "Pavel", "Tom", "Ilse", "Bram")
    gone = (ev.PersonLeft(1, "Pavel"), ev.PersonLeft(1, "Tom"))
    assert names(on_board(folded(record, *gone), PIECE)) == ["Ilse + Bram"]


def test_who_shares_a_lane_is_said_of_any_segment(pairs: Plan) -> None:
    record = opened(pairs, "Pavel", "Tom", "Ilse")
    assert sharing_a_lane(record, "Tom", PIECE) == ("Pavel", "Tom")
    assert sharing_a_lane(record, "Tom", WARM_UP) == ("Tom",)


def test_who_shared_equipment_leaves_the_others_their_places(depot: Plan) -> None:
    way = Sharing("two heats", (Place(("Ilse", "Bram")), Place(("Noor",), heat=2)))
    record = on_board(folded(opened(depot), ev.EquipmentShared(0, PIECE, way)), PIECE)
    left = folded(record, ev.PersonLeft(1, "Ilse"))
    assert [(lane.name, lane.heat) for lane in lineup(left, None)] == [("Bram", 1), ("Noor", 2)]


# -- heats ---------------------------------------------------------------------------


def test_who_leaves_after_the_first_heat_takes_nobody_elses_heat_away(depot: Plan) -> None:
    """27 run in heats of 13 and 14; with one less they would be drawn in one."""
    record = started(opened(depot, *(f"Tram {n}" for n in range(27))), PIECE)
    been = tuple(lane.name for lane in lineup(record, None))
    left = folded(record, ev.PersonLeft(OVER, "Tram 0"), ev.PersonLeft(OVER, "Tram 26"))
    to_come = [lane.id for lane in all_heats(left, None) if lane.heat == 2]
    assert len(to_come) == 13
    assert not set(been) & set(to_come)
    next_heat = decide_clock(left, Next(all_stands=True), OVER)
    assert isinstance(next_heat, tuple)
    assert next_heat[-1] == ev.SegmentChosen(OVER, PIECE, 2)


def test_who_comes_between_two_heats_is_in_the_next(depot: Plan) -> None:
    record = started(opened(depot, *(f"Tram {n}" for n in range(27))), PIECE)
    come = folded(record, ev.PersonAdded(OVER, Person("uri", "Uri", "u")))
    drawn = [lane.id for lane in all_heats(come, None)]
    assert len(drawn) == len(set(drawn)) == 28
    assert next(lane.heat for lane in all_heats(come, None) if lane.id == "uri") == 2


def test_who_comes_after_the_last_heat_waits_for_the_next_piece(depot: Plan) -> None:
    over = started(opened(depot), PIECE)
    come = folded(over, ev.PersonAdded(OVER, Person("uri", "Uri", "u")))
    assert {lane.heat for lane in all_heats(come, None)} == {1}
    after = decide_clock(come, Next(all_stands=True), OVER)
    assert isinstance(after, tuple)
    assert after[-1] == ev.SegmentChosen(OVER, COOL_DOWN)


def test_a_piece_for_nobody_does_not_start(depot: Plan) -> None:
    record = folded(opened(depot), *(ev.PersonLeft(1, name) for name in NAMES))
    assert isinstance(decide_clock(on_board(record, PIECE), Start(), OVER), Refusal)
    assert not isinstance(decide_clock(on_board(record, WARM_UP), Start(), OVER), Refusal)


# -- what is allowed -----------------------------------------------------------------


def test_nobody_leaves_twice_nor_is_back_without_having_left(depot: Plan) -> None:
    record = opened(depot)
    assert decide_leaving(record, "Bram", 5) == ev.PersonLeft(5, "Bram")
    gone = folded(record, ev.PersonLeft(5, "Bram"))
    twice = decide_leaving(gone, "Bram", 6)
    assert twice == Refusal("Bram has left already. -b: back again")
    assert decide_back(record, "Bram", 5) == Refusal("Bram is here: nobody has said that they left")
    for decided in (decide_leaving(record, "uri", 5), decide_back(record, "uri", 5)):
        assert isinstance(decided, Refusal)


def test_who_has_a_lane_in_what_runs_is_stopped_in_it_not_gone(depot: Plan) -> None:
    running = started(opened(depot), PIECE)
    for at in (GO - 1, GO + 1):
        assert isinstance(decide_leaving(running, "Bram", at), Refusal)
    assert decide_leaving(running, "Bram", OVER) == ev.PersonLeft(OVER, "Bram")
    warm_up = started(opened(depot), WARM_UP)
    assert decide_leaving(warm_up, "Bram", GO + 1) == ev.PersonLeft(GO + 1, "Bram")


def test_who_is_back_while_a_piece_runs_is_late_in_it_with_their_own_key(depot: Plan) -> None:
    gone = folded(opened(depot), ev.PersonLeft(1, "Bram"))
    back = decide_back(started(gone, PIECE), "Bram", GO + 1)
    assert not isinstance(back, Refusal)
    came, joined = back.events
    assert came == ev.PersonBack(GO + 1, "Bram")
    assert isinstance(joined, ev.LaneJoined)
    assert (joined.lane.key, joined.lane.late) == ("b", True)


def test_who_is_back_in_the_middle_does_what_was_chosen_for_them(depot: Plan) -> None:
    chosen = ev.OptionChosen(1, "Bram", PIECE, (2, 0), "lighter", 0)
    gone = folded(opened(depot), chosen, ev.PersonLeft(1, "Bram"))
    back = decide_back(started(gone, PIECE), "Bram", GO + 1)
    assert not isinstance(back, Refusal)
    joined = back.events[-1]
    assert isinstance(joined, ev.LaneJoined)
    assert (joined.lane.options, joined.lane.load) == ((2, 0), "lighter")


def test_who_left_after_a_piece_that_is_taken_up_again_has_one_lane_in_it(depot: Plan) -> None:
    record = folded(started(opened(depot), PIECE), ev.PersonLeft(OVER, "Bram"))
    back = decide_back(record, "Bram", GO + 1)  # the end of the piece was taken back
    assert not isinstance(back, Refusal)
    assert [type(event) for event in back.events] == [ev.PersonBack]


def test_a_newcomer_never_gets_the_key_of_somebody_who_left(depot: Plan) -> None:
    gone = folded(opened(depot), ev.PersonLeft(1, "Bram"))
    (added,) = decide_joining(gone, Person("bo", "Bo", "b"), 1).events
    assert isinstance(added, ev.PersonAdded)
    assert added.person.key == "o"


def test_a_change_keeps_names_and_keys_apart_from_those_who_left_too(depot: Plan) -> None:
    gone = folded(opened(depot), ev.PersonLeft(1, "Bram"))
    noor = gone.people[2]
    for changed in (
        replace(noor, key="b"),
        replace(noor, key="1"),
        replace(noor, key=""),
        replace(noor, name="BRAM"),
        replace(noor, name=" "),
        replace(noor, id="uri"),
    ):
        assert isinstance(decide_change(gone, changed, 1), Refusal)
    allowed = replace(noor, key="z", name="Noor B")
    assert decide_change(gone, allowed, 1) == ev.PersonChanged(1, allowed)


# -- in any order --------------------------------------------------------------------

STEPS = st.one_of(
    st.tuples(st.just("leave"), st.integers(0, 30)),
    st.tuples(st.just("back"), st.integers(0, 30)),
    st.tuples(st.just("come"), st.integers(0, 30)),
    st.tuples(st.just("next"), st.just(0)),
)


@given(st.integers(1, 30), st.sampled_from([None, 2, 3]), st.lists(STEPS, max_size=25))
def test_whoever_comes_and_goes_lanes_are_of_those_who_are_here_and_keys_of_their_owners(
    depot: Plan, people: int, teams: int | None, steps: list[tuple[str, int]]
) -> None:
    piece = depot.segment[PIECE].model_copy(update={"teams": teams})
    plan = depot.model_copy(update={"segment": (piece,) * 26})
    record = opened(plan, *(f"Tram {n}" for n in range(people)))
    at = 0
    for number, (step, who) in enumerate(steps):
        before, at = record, at + 1_000
        target = record.people[who % len(record.people)].id
        if step == "come":
            newcomer = Person(f"new-{number}", f"Late {number}", "abcdefgh"[who % 8])
            record = folded(record, *decide_joining(record, newcomer, at).events)
        elif step == "leave":
            left = decide_leaving(record, target, at)
            assert isinstance(left, Refusal) == (target in record.left)
            record = record if isinstance(left, Refusal) else folded(record, left)
        elif step == "back":
            back = decide_back(record, target, at)
            assert isinstance(back, Refusal) == (target not in record.left)
            record = record if isinstance(back, Refusal) else folded(record, *back.events)
        else:
            record = _played(record, at)
            at += 20 * 60_000
        for run, sheet in before.runs.items():
            assert record.runs[run] == sheet, "what was done stands"
        _hold_together(record)


def _played(record: ClassRecord, at: int) -> ClassRecord:
    """The heat on the board started, run to its end, and the next one on the board."""
    start = decide_clock(record, Start(), at)
    if isinstance(start, Refusal):
        here = {lane for lane in lineup(record, None) if lane.heat == record.chosen.heat}
        assert not here, start
        return folded(record, ev.SegmentChosen(at, record.chosen.segment + 1))
    record = folded(record, *start)
    sheet = record.sheet
    assert sheet is not None
    after = decide_clock(record, Next(all_stands=True), at + 18 * 60_000)
    assert isinstance(after, tuple), after
    return folded(record, *after)


def _hold_together(record: ClassRecord) -> None:
    lanes = lineup(record, None)
    members = [ident for lane in lanes for ident in lane.members]
    assert len(members) == len(set(members)), "nobody stands in two lanes"
    if record.sheet is None:
        to_come = {one for lane in lanes if lane.heat >= record.chosen.heat for one in lane.members}
        assert not to_come & set(record.left), "nobody gone has a lane"
        if record.chosen.heat == 1:
            assert set(members) == {person.id for person in record.here}
    keys = {person.key: person.id for person in record.people}
    if len(record.people) <= 26:
        assert len(keys) == len(record.people), "a key is one person's for the whole class"
        for lane in lanes:
            assert keys[lane.key] in lane.members, "nobody has another's key"


@given(st.integers(0, 40), st.sets(st.integers(0, 39)), st.sampled_from([None, 2, 3]))
def test_drawn_with_some_gone_it_is_as_without_them_ever(
    depot: Plan, people: int, gone: set[int], teams: int | None
) -> None:
    piece = depot.segment[PIECE].model_copy(update={"teams": teams})
    every = people_named(tuple(f"Tram {n}" for n in range(people)))
    away = {every[n].id for n in gone if n < people}
    lanes = draw_lanes(piece, every, {}, gone=away)
    here = [person.id for person in every if person.id not in away]
    assert [ident for lane in lanes for ident in lane.members] == here
    heats = {lane.heat for lane in lanes}
    assert heats == set(range(1, len(heats) + 1))
    assert all(sum(lane.heat == heat for lane in lanes) <= 26 for heat in heats)
    assert len({(lane.heat, lane.key) for lane in lanes}) == len(lanes)
