"""A class folded from its events: who is here, what they chose, where the class is."""

import pytest
from msgspec.structs import replace

from classclock.plan.model import Plan
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Choice, Person, Place, Sharing
from classclock.tally.lineup import draw_lanes
from classclock.tally.record import ClassRecord, RunKey

WARM_UP, PIECE, COOL_DOWN = 0, 1, 2
ILSE, BRAM, NOOR = people_named(("Ilse", "Bram", "Noor"))
GO = 20_000
CAP = GO + 16 * 60_000


@pytest.fixture
def opened(depot: Plan) -> ClassRecord:
    return folded(
        ClassRecord(depot), ev.ClassOpened(0, "depot", "", "kg", (ILSE, BRAM, NOOR), "19:00")
    )


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=100):
        record = record.apply(number, event)
    return record


def started(record: ClassRecord, segment: int, heat: int = 1, *, anew: bool = False) -> ClassRecord:
    lanes = draw_lanes(record.plan.segment[segment], record.people, {})
    return folded(
        record,
        ev.SegmentChosen(5_000, segment, heat, anew),
        ev.SegmentStarted(10_000, segment, heat, GO, lanes),
    )


# -- people --------------------------------------------------------------------------


def test_whoever_leaves_is_gone_and_the_others_stay(opened: ClassRecord) -> None:
    record = folded(opened, ev.PersonLeft(1, BRAM.id))
    assert record.here == (ILSE, NOOR)
    assert record.people == (ILSE, BRAM, NOOR), "whose key is it?"


def test_who_was_taken_off_the_list_and_on_again_comes_last_as_in_older_journals(
    opened: ClassRecord,
) -> None:
    record = folded(opened, ev.PersonLeft(0, BRAM.id), ev.PersonAdded(0, BRAM))
    assert record.here == record.people == (ILSE, NOOR, BRAM)


def test_whoever_comes_is_the_last_and_whoever_changes_stays_in_their_place(
    opened: ClassRecord,
) -> None:
    uri, marked = Person("uri", "Uri", "u"), replace(BRAM, marks=("off the wall",))
    record = folded(opened, ev.PersonAdded(0, uri), ev.PersonChanged(0, marked))
    assert record.people == (ILSE, marked, NOOR, uri)


def test_each_chooses_for_themselves_and_for_each_segment(opened: ClassRecord) -> None:
    record = folded(
        opened,
        ev.OptionChosen(0, ILSE.id, PIECE, (1, 0), None, 0),
        ev.OptionChosen(0, BRAM.id, PIECE, (0, 1), "20 kg", 1),
        ev.OptionChosen(0, ILSE.id, PIECE, (2, 0), None, 0),
    )
    assert record.choice(ILSE.id, PIECE) == Choice((2, 0))
    assert record.choice(BRAM.id, PIECE) == Choice((0, 1), "20 kg", 1)
    assert record.choice(NOOR.id, PIECE) == record.choice(ILSE.id, COOL_DOWN) == Choice()


def test_equipment_is_shared_segment_by_segment_until_that_is_taken_back(
    opened: ClassRecord,
) -> None:
    heats, turns = Sharing("two heats", (Place((ILSE.id,)),)), Sharing("by turns", ())
    both = folded(
        opened, ev.EquipmentShared(0, PIECE, heats), ev.EquipmentShared(0, COOL_DOWN, turns)
    )
    assert both.shared == {PIECE: heats, COOL_DOWN: turns}
    assert folded(both, ev.EquipmentShared(0, PIECE, turns)).shared[PIECE] == turns
    assert folded(both, ev.EquipmentShared(0, PIECE, None)).shared == {COOL_DOWN: turns}


def test_a_flag_that_was_read_stays_read(opened: ClassRecord) -> None:
    record = folded(
        opened,
        ev.FlagAcknowledged(0, ILSE.id, PIECE, "above her record"),
        ev.FlagAcknowledged(0, BRAM.id, PIECE, "no record"),
    )
    assert record.acknowledged == {
        (ILSE.id, PIECE, "above her record"),
        (BRAM.id, PIECE, "no record"),
    }


def test_the_hour_may_end_at_another_time(opened: ClassRecord) -> None:
    assert opened.ends == "19:00"
    assert folded(opened, ev.EndMoved(0, "19:10")).ends == "19:10"


def test_what_was_done_in_an_emergency_changes_nothing_of_the_class(opened: ClassRecord) -> None:
    assert folded(opened, ev.EmergencyNoted(0, "Noor, ankle, ice")) == opened


# -- segments ------------------------------------------------------------------------


def test_a_class_goes_from_the_board_through_a_piece_to_its_end(opened: ClassRecord) -> None:
    assert folded(opened, ev.SegmentChosen(0, PIECE)).phase(5_000) == "board"
    running = started(opened, PIECE)
    assert running.phase(GO - 1) == "count-in"
    assert running.phase(GO) == "running"
    assert running.phase(CAP - 1) == "running"
    assert running.phase(CAP) == "over"
    held = folded(running, ev.Held(GO + 1_000))
    assert held.phase(GO + 2_000) == "held"
    assert folded(held, ev.Resumed(GO + 2_000)).phase(GO + 2_000) == "running"
    assert folded(running, ev.ClassClosed(CAP)).phase(CAP) == "closed"


def test_a_class_that_is_over_goes_on_where_the_coach_goes_back(opened: ClassRecord) -> None:
    closed = folded(started(opened, PIECE), ev.ClassClosed(CAP))
    back = folded(closed, ev.SegmentChosen(CAP, PIECE))
    assert back.phase(CAP) == "over"
    assert back.sheet is not None


def test_a_count_in_that_is_called_off_was_never_begun(opened: ClassRecord) -> None:
    warmed_up = started(opened, WARM_UP)
    record = folded(started(warmed_up, PIECE), ev.CalledOff(15_000))
    assert record.phase(15_000) == "board"
    assert set(record.runs) == {RunKey(WARM_UP)}


def test_a_segment_that_is_begun_anew_is_another_attempt_and_both_are_kept(
    opened: ClassRecord,
) -> None:
    twice = started(started(opened, PIECE), PIECE, anew=True)
    assert set(twice.runs) == {RunKey(PIECE, 1), RunKey(PIECE, 2)}
    assert twice.chosen == RunKey(PIECE, 2)
    assert started(twice, PIECE, anew=True).chosen == RunKey(PIECE, 3)
    assert folded(twice, ev.SegmentChosen(0, WARM_UP)).chosen == RunKey(WARM_UP, 1)


def test_the_heats_of_an_attempt_are_one_piece_in_their_order(opened: ClassRecord) -> None:
    record = started(started(started(opened, WARM_UP), PIECE, heat=2), PIECE, heat=1)
    assert [sheet.heat for sheet in record.heats(RunKey(PIECE))] == [1, 2]
    assert record.pieces() == (RunKey(PIECE),), "a warm-up is no piece"
    again = started(record, PIECE, anew=True)
    assert again.pieces() == (RunKey(PIECE, 1), RunKey(PIECE, 2))
    assert len(again.heats(RunKey(PIECE, 2))) == 1


def test_what_is_said_of_a_segment_that_was_not_begun_counts_nothing(opened: ClassRecord) -> None:
    assert folded(opened, ev.Tapped(5_000, ILSE.id)) == opened


def test_a_tap_counts_in_the_segment_on_the_board_and_in_no_other(opened: ClassRecord) -> None:
    record = folded(started(started(opened, PIECE), PIECE, anew=True), ev.Tapped(GO + 1, ILSE.id))
    done = {key: len(sheet.tallies[ILSE.id].rounds) for key, sheet in record.runs.items()}
    assert done == {RunKey(PIECE, 1): 0, RunKey(PIECE, 2): 1}


# -- how hard it was -------------------------------------------------------------------


def test_how_hard_it_was_is_what_each_said_last_until_they_take_it_back(
    opened: ClassRecord,
) -> None:
    heard = folded(
        opened,
        ev.EffortSaid(CAP, ILSE.id, 5),
        ev.EffortSaid(CAP, BRAM.id, 0),
        ev.EffortSaid(CAP, ILSE.id, 7),
    )
    assert heard.efforts == {ILSE.id: 7, BRAM.id: 0}
    assert folded(heard, ev.EffortSaid(CAP, BRAM.id, None)).efforts == {ILSE.id: 7}


def test_once_it_is_skipped_nobody_is_asked_and_who_says_it_is_heard(depot: Plan) -> None:
    opened = ev.ClassOpened(0, "depot", "", "kg", (ILSE, BRAM), None, ask_effort=True)
    record = folded(ClassRecord(depot), opened)
    assert record.asks_effort
    skipped = folded(record, ev.EffortSkipped(CAP), ev.EffortSaid(CAP + 1, ILSE.id, 6))
    assert not skipped.asks_effort
    assert skipped.efforts == {ILSE.id: 6}
    assert skipped.people == record.people
