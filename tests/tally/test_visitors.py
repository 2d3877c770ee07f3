"""People without a name: they are numbered, they count, and somebody may say who they are."""

import pytest
from msgspec import UNSET
from msgspec.structs import replace

from classclock.plan.model import Plan
from classclock.tally import events as ev
from classclock.tally.decide_people import decide_change, decide_joining, decide_naming
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Lane, Person
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal
from classclock.tally.visitors import named, numbered, visitor, visitor_called

PIECE, GO = 1, 20_000
ILSE, FIRST, SECOND = people_named(("Ilse", "?", "visitor 7"))


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=100):
        record = record.apply(number, event)
    return record


@pytest.fixture
def opened(depot: Plan) -> ClassRecord:
    people = (ILSE, FIRST, SECOND)
    return folded(ClassRecord(depot), ev.ClassOpened(0, "depot", "", "kg", people, None))


def test_who_has_no_name_is_the_next_visitor_with_a_key_and_marked_as_new() -> None:
    assert [(one.id, one.name, one.key) for one in (FIRST, SECOND)] == [
        ("visitor 1", "visitor 1", "v"),
        ("visitor 2", "visitor 2", "i" if ILSE.key != "i" else "s"),
    ]
    assert FIRST.visitor
    assert FIRST.newcomer
    assert FIRST.marks == ("newcomer",)
    assert not ILSE.visitor


def test_numbers_go_on_behind_the_highest() -> None:
    assert numbered(visitor("q9"), (SECOND, ILSE)).name == "visitor 3"
    assert numbered(visitor("q9"), (replace(SECOND, visitor=False),)).name == "visitor 1"
    assert numbered(ILSE, (SECOND,)) is ILSE


def test_a_visitor_who_comes_late_is_numbered_too(opened: ClassRecord) -> None:
    (event,) = decide_joining(opened, visitor("q9"), 1_000).events
    assert isinstance(event, ev.PersonAdded)
    assert (event.person.id, event.person.name, event.person.key) == ("q9", "visitor 3", "t")


@pytest.mark.parametrize("written", ["visitor 2", " Visitor  2", "2"])
def test_a_visitor_is_meant_by_name_or_number(written: str) -> None:
    assert visitor_called(written, (ILSE, FIRST, SECOND)) == SECOND


@pytest.mark.parametrize("written", ["3", "Ilse", "", "visitor"])
def test_in_words_who_there_is_where_nobody_is_meant(written: str) -> None:
    assert visitor_called(written, (ILSE, FIRST, SECOND)) == Refusal(
        "which visitor? visitor 1, visitor 2: as in visitor 1 = Anna"
    )
    assert visitor_called(written, (ILSE,)) == Refusal(
        "there is no visitor here: everybody has a name"
    )


def test_a_name_makes_somebody_of_a_visitor() -> None:
    assert named(FIRST, " Zoe\u0308  B", (ILSE, FIRST)) == Person(
        "visitor 1", "Zo\u00eb B", "v", newcomer=True, marks=("newcomer",)
    )
    known = named(FIRST, "Anna", (ILSE, FIRST), ("off the wall",))
    assert known == Person("visitor 1", "Anna", "v", marks=("off the wall",))


@pytest.mark.parametrize(
    ("who", "name", "why"),
    [
        (FIRST, "  ", "a name for visitor 1"),
        (FIRST, "?", "a name for visitor 1"),
        (FIRST, "ILSE", "there is a ILSE already: add an initial, as in ILSE B"),
        (ILSE, "Anna", "Ilse has a name already"),
    ],
)
def test_a_name_that_cant_be_given_is_refused_in_words(who: Person, name: str, why: str) -> None:
    refused = named(who, name, (ILSE, FIRST))
    assert isinstance(refused, Refusal)
    assert refused.text.startswith(why)


def test_nobody_of_that_id_gets_none(opened: ClassRecord) -> None:
    assert isinstance(decide_naming(opened, "nobody", "Anna", 5), Refusal)


def test_the_lanes_of_earlier_pieces_bear_the_name_too(opened: ClassRecord) -> None:
    pair = Lane("visitor 1", "visitor 1 + Ilse", "v", ("visitor 1", "ilse"))
    alone = Lane("visitor 2", "visitor 2", "s", ("visitor 2",))
    record = folded(
        opened,
        ev.SegmentChosen(5_000, PIECE),
        ev.SegmentStarted(10_000, PIECE, 1, GO, (pair, alone)),
        ev.Tapped(60_000, "visitor 1"),
    )
    decided = decide_naming(record, "visitor 1", "Anna", 70_000)
    assert isinstance(decided, ev.PersonChanged)
    after = folded(record, decided)
    sheet, before = after.sheet, record.sheet
    assert sheet is not None
    assert before is not None
    assert [lane.name for lane in sheet.lanes] == ["Anna + Ilse", "visitor 2"]
    assert sheet.tallies["visitor 1"].lane.name == "Anna + Ilse"
    assert sheet.tallies["visitor 1"].rounds == before.tallies["visitor 1"].rounds
    assert [person.name for person in after.people] == ["Ilse", "Anna", "visitor 2"]


def test_whose_part_nobody_can_tell_stays() -> None:
    lane = Lane("a", "Anna + B + Ilse", "a", ("a", "ilse"))
    assert lane.called(Person("a", "Bea", "b")) == lane
    assert lane.called(Person("x", "Bea", "b")) is lane
    assert Lane("a", "A + B", "a", ("a",)).called(Person("a", "Bea", "b")).name == "Bea"


def test_whoever_is_given_a_name_in_any_way_is_no_visitor(opened: ClassRecord) -> None:
    renamed = decide_change(opened, replace(FIRST, name="Anna"), 5)
    assert isinstance(renamed, ev.PersonChanged)
    assert renamed.person == replace(FIRST, name="Anna", visitor=UNSET)
    other_key = decide_change(opened, replace(FIRST, key="z"), 5)
    assert isinstance(other_key, ev.PersonChanged)
    assert other_key.person.visitor
