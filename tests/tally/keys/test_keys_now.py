"""What the keys mean in a class, moment by moment: whose they are, and in which phase."""

from typing import Any

import pytest

from classclock.plan.model import Plan
from classclock.tally import events as ev
from classclock.tally.class_lineup import all_heats, lineup
from classclock.tally.counting.counting import GRACE
from classclock.tally.keys.key_state import KeyContext
from classclock.tally.keys.keys_now import keys_now
from classclock.tally.lane_keys import people_named
from classclock.tally.lineup import MOST_LANES
from classclock.tally.record import ClassRecord
from classclock.tally.sheet import ALL_IN_STAYS

WARM_UP, PIECE = 0, 1
GO = 20_000
CAP = GO + 16 * 60_000


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=1_000):
        record = record.apply(number, event)
    return record


def now(record: ClassRecord, at: int) -> KeyContext:
    return keys_now(record, lineup(record, None), at)


def begun(depot: Plan, segment: int, names: tuple[str, ...] = ("Ilse", "Bram")) -> ClassRecord:
    opened = ev.ClassOpened(0, "depot", "", "kg", people_named(names), None)
    record = folded(ClassRecord(depot), opened, ev.SegmentChosen(1_000, segment))
    lanes = tuple(lane for lane in all_heats(record, None) if lane.heat == 1)
    return folded(record, ev.SegmentStarted(10_000, segment, 1, GO, lanes))


@pytest.mark.parametrize(
    ("at", "phase"),
    [
        (GO - 1, "count-in"),
        (GO, "running"),
        (CAP - 1, "running"),
        (CAP, "late"),
        (CAP + GRACE, "late"),
        (CAP + GRACE + 1, "over"),
    ],
)
def test_a_thumb_is_late_for_a_moment_after_the_cap(depot: Plan, at: int, phase: str) -> None:
    assert now(begun(depot, PIECE), at).phase == phase


def test_where_nothing_is_counted_nobody_is_late(depot: Plan) -> None:
    assert now(begun(depot, WARM_UP), GO + 60_000).phase == "over"


def test_who_ended_the_piece_by_hand_waits_for_no_thumb(depot: Plan) -> None:
    ended = folded(begun(depot, PIECE), ev.Held(GO + 10), ev.SegmentEnded(GO + 20))
    assert now(ended, GO + 15).phase == "held"
    assert now(ended, GO + 20).phase == "over"


def test_when_a_class_is_closed_letters_mean_people_again(depot: Plan) -> None:
    closed = folded(begun(depot, PIECE), ev.Settled(CAP, PIECE, 1), ev.ClassClosed(CAP + 9_000))
    assert closed.phase(CAP + 10_000) == "closed"
    last = now(closed, CAP + 10_000)
    assert last.phase == "last"
    assert last.keys == {"i": "Ilse", "b": "Bram"}


def test_all_are_in_from_the_last_finish_or_stop_on(depot: Plan) -> None:
    record = begun(depot, PIECE)
    stops = (ev.StoppedHere(GO + 60_000, "Ilse"), ev.StoppedHere(GO + 61_000, "Bram"))
    record = folded(record, *stops)
    assert not now(record, GO + 60_999).all_in
    assert now(record, GO + 61_000).all_in
    assert now(record, GO + 61_000 + ALL_IN_STAYS).phase == "late"


def test_only_a_countdown_changes_its_time(depot: Plan) -> None:
    assert now(begun(depot, WARM_UP), GO).can_change_time
    assert not now(begun(depot, PIECE), GO).can_change_time


def test_while_a_heat_runs_the_keys_are_its_own(depot: Plan) -> None:
    names = tuple(f"Tram {number}" for number in range(MOST_LANES + 1))
    record = begun(depot, PIECE, names)
    first = now(record, GO).keys
    assert now(record, GO).counts_by == "rounds"
    second = now(heat(record, 2), GO).keys
    assert len(first) + len(second) == len(names)
    assert set(first.values()).isdisjoint(second.values())


def heat(record: ClassRecord, number: int) -> ClassRecord:
    chosen = folded(record, ev.SegmentChosen(CAP, PIECE, number))
    lanes = tuple(lane for lane in all_heats(chosen, None) if lane.heat == number)
    return folded(chosen, ev.SegmentStarted(CAP, PIECE, number, GO, lanes))


def test_on_the_board_a_letter_is_everybodys_own_of_a_pair_too_and_of_who_has_left(
    segment_of: Any, turntable: Any, depot: Plan
) -> None:
    pairs = depot.model_copy(update={"segment": (segment_of(**turntable, teams=2),)})
    people = people_named(("Pavel", "Tom", "Ilse", "Bram"))
    record = folded(
        ClassRecord(pairs),
        ev.ClassOpened(0, "depot", "", "kg", people, None),
        ev.PersonLeft(1, "Bram"),
    )
    assert now(record, 2).keys == {"p": "Pavel", "t": "Tom", "i": "Ilse", "b": "Bram"}
    lanes = lineup(record, None)
    started = folded(record, ev.SegmentStarted(10_000, 0, 1, GO, lanes))
    assert now(started, GO).keys == {"p": "Pavel", "i": "Ilse"}, "lanes, once it runs"


def test_on_the_board_no_letter_means_anybody_where_there_are_more_people_than_letters(
    depot: Plan,
) -> None:
    names = tuple(f"Tram {number}" for number in range(MOST_LANES + 1))
    opened = ev.ClassOpened(0, "depot", "", "kg", people_named(names), None)
    board = now(folded(ClassRecord(depot), opened), 1)
    assert (board.keys, board.too_many) == ({}, True)


def test_the_keys_know_how_many_options_there_are(depot: Plan) -> None:
    assert now(begun(depot, PIECE), GO).options == 2
    assert now(begun(depot, WARM_UP), GO).options == 0
