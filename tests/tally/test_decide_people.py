"""Who comes in, late or not, in which heat and with which key."""

from string import ascii_lowercase

import pytest

from classclock.plan.model import Plan
from classclock.tally import events as ev
from classclock.tally.class_lineup import all_heats, lineup
from classclock.tally.decide_people import Joining, decide_effort, decide_joining
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Lane, Person, Place, Sharing
from classclock.tally.lineup import MOST_LANES
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal

WARM_UP, PIECE = 0, 1
GO = 20_000
URI = Person("uri", "Uri", "i")
"""Uri's key is Ilse's here."""


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=1_000):
        record = record.apply(number, event)
    return record


def started(record: ClassRecord, segment: int) -> ClassRecord:
    chosen = folded(record, ev.SegmentChosen(5_000, segment))
    lanes = tuple(lane for lane in all_heats(chosen, None) if lane.heat == 1)
    return folded(chosen, ev.SegmentStarted(10_000, segment, 1, GO, lanes))


@pytest.fixture
def opened(depot: Plan) -> ClassRecord:
    people = people_named(("Ilse", "Bram", "Noor"))
    return folded(ClassRecord(depot), ev.ClassOpened(0, "depot", "", "kg", people, None))


def test_a_key_that_is_taken_is_changed_for_the_newcomer(opened: ClassRecord) -> None:
    joining = decide_joining(opened, URI, 1_000)
    assert joining == Joining((ev.PersonAdded(1_000, Person("uri", "Uri", "u")),))


def test_a_key_of_their_own_stays_where_it_is_free(opened: ClassRecord) -> None:
    joining = decide_joining(opened, Person("uri", "Uri", "x"), 1_000)
    assert joining.events == (ev.PersonAdded(1_000, Person("uri", "Uri", "x")),)


@pytest.mark.parametrize("at", [GO - 1, GO + 16 * 60_000], ids=["count-in", "over"])
def test_before_go_and_after_the_cap_nobody_is_late(opened: ClassRecord, at: int) -> None:
    joining = decide_joining(started(opened, PIECE), URI, at)
    assert [type(event) for event in joining.events] == [ev.PersonAdded]


def test_nobody_is_late_for_what_isnt_scored(opened: ClassRecord) -> None:
    joining = decide_joining(started(opened, WARM_UP), URI, GO + 1)
    assert [type(event) for event in joining.events] == [ev.PersonAdded]


def test_while_a_piece_runs_or_is_held_a_newcomer_has_a_lane_and_is_late(
    opened: ClassRecord,
) -> None:
    running = started(opened, PIECE)
    for record in (running, folded(running, ev.Held(GO + 1))):
        _, joined = decide_joining(record, URI, GO + 2).events
        assert joined == ev.LaneJoined(GO + 2, Lane("uri", "Uri", "u", ("uri",), late=True))


def test_a_full_heat_has_no_lane_left_and_says_when_they_come(depot: Plan) -> None:
    people = people_named(tuple(f"Tram {number}" for number in range(MOST_LANES)))
    opened = ev.ClassOpened(0, "depot", "", "kg", people, None)
    running = started(folded(ClassRecord(depot), opened), PIECE)
    joining = decide_joining(running, URI, GO + 1)
    assert [type(event) for event in joining.events] == [ev.PersonAdded]
    assert joining.text == "all 26 keys are taken: Uri comes in the next heat"
    assert {lane.key for lane in lineup(running, None)} == set(ascii_lowercase)
    with_uri = folded(running, *joining.events)
    assert [lane.name for lane in all_heats(with_uri, None) if lane.heat == 2] == ["Uri"]


def test_who_came_late_to_a_heat_is_drawn_for_no_other(depot: Plan) -> None:
    people = people_named(("Ilse", "Bram", "Noor"))
    heats = Sharing("two heats", (Place(("Ilse", "Bram")), Place(("Noor",), heat=2)))
    record = folded(
        ClassRecord(depot),
        ev.ClassOpened(0, "depot", "", "kg", people, None),
        ev.EquipmentShared(1_000, PIECE, heats),
    )
    running = started(record, PIECE)
    late = folded(running, *decide_joining(running, URI, GO + 1).events)
    assert "uri" in {lane.id for lane in lineup(late, None)}
    assert [lane.id for lane in all_heats(late, None) if lane.heat == 2] == ["Noor"]


def test_how_hard_it_was_is_kept_of_who_is_here_and_of_who_left(opened: ClassRecord) -> None:
    gone = folded(opened, ev.PersonLeft(2_000, "Bram"))
    for name in ("Ilse", "Bram"):
        assert decide_effort(gone, name, 7, 9_000) == ev.EffortSaid(9_000, name, 7)


def test_how_hard_it_was_is_not_kept_of_who_is_not_in_the_book(opened: ClassRecord) -> None:
    visitor = Person("visitor-1", "visitor 1", "v", visitor=True)
    record = folded(opened, ev.PersonAdded(2_000, visitor))
    assert decide_effort(record, "visitor-1", 7, 9_000) == Refusal(
        "visitor 1 isn't in the book: +, then visitor 1 = their name"
    )
    assert isinstance(decide_effort(record, "nobody", 7, 9_000), Refusal)
