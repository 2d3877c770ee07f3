"""How long a class lasted for somebody: from its first start to its end, or until they left."""

import pytest

from classclock.plan.model import Plan
from classclock.tally import events as ev
from classclock.tally.effort.class_time import time_here
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Lane
from classclock.tally.record import ClassRecord

PIECE, MINUTE, GO = 1, 60_000, 20_000
CAP = 16 * MINUTE
ILSE, BRAM = people_named(("Ilse", "Bram"))
STARTED = (
    ev.ClassOpened(0, "depot", "", "kg", (ILSE, BRAM), None),
    ev.SegmentChosen(5_000, PIECE),
    ev.SegmentStarted(10_000, PIECE, 1, GO, (Lane(ILSE.id, "Ilse", "i", (ILSE.id,)),)),
)


@pytest.fixture
def record(depot: Plan) -> ClassRecord:
    return folded(ClassRecord(depot), *STARTED)


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=100):
        record = record.apply(number, event)
    return record


def test_nothing_was_started_so_nothing_is_known(depot: Plan) -> None:
    assert time_here(folded(ClassRecord(depot), *STARTED[:2]), ILSE.id) is None


def test_a_piece_that_ran_to_its_cap_lasted_so_long(record: ClassRecord) -> None:
    assert time_here(record, ILSE.id) == CAP


def test_a_clock_that_was_held_is_time_of_the_class(record: ClassRecord) -> None:
    held = folded(record, ev.Held(GO + MINUTE), ev.Resumed(GO + 3 * MINUTE))
    assert time_here(held, ILSE.id) == CAP + 2 * MINUTE


def test_a_hold_that_was_undone_is_not(record: ClassRecord) -> None:
    held = folded(record, ev.Held(GO + MINUTE), ev.HoldUndone(GO + 3 * MINUTE))
    assert time_here(held, ILSE.id) == CAP


def test_a_piece_that_was_ended_by_hand_ended_then(record: ClassRecord) -> None:
    ended = folded(record, ev.Held(GO + MINUTE), ev.SegmentEnded(GO + 2 * MINUTE))
    assert time_here(ended, ILSE.id) == 2 * MINUTE


def test_a_clock_that_still_stands_counts_until_it_was_held(record: ClassRecord) -> None:
    assert time_here(folded(record, ev.Held(GO + MINUTE)), ILSE.id) == MINUTE


def test_a_reading_that_was_set_right_moves_the_end(record: ClassRecord) -> None:
    shifted = folded(record, ev.ClockShifted(GO + MINUTE, 5_000))
    assert time_here(shifted, ILSE.id) == CAP - 5_000


def test_who_left_was_there_until_then_and_who_is_back_to_the_end(record: ClassRecord) -> None:
    gone = folded(record, ev.PersonLeft(GO + 4 * MINUTE, BRAM.id))
    assert (time_here(gone, BRAM.id), time_here(gone, ILSE.id)) == (4 * MINUTE, CAP)
    assert time_here(folded(gone, ev.PersonBack(GO + 5 * MINUTE, BRAM.id)), BRAM.id) == CAP


@pytest.mark.parametrize(("at", "lasted"), [(GO + CAP + MINUTE, CAP), (GO - 1, 0)])
def test_who_left_after_the_end_or_before_the_start(
    record: ClassRecord, at: int, lasted: int
) -> None:
    assert time_here(folded(record, ev.PersonLeft(at, BRAM.id)), BRAM.id) == lasted
