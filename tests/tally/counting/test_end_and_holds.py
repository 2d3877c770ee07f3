"""The cap, late entries, "all in", and the clock held."""

from typing import Any

import pytest

from classclock.tally import commands as cmd
from classclock.tally import events as ev


@pytest.fixture
def piece(rehearsal: Any, turntable: Any) -> Any:
    return rehearsal(**turntable)


@pytest.fixture
def for_time(rehearsal: Any, third_rail: Any) -> Any:
    return rehearsal(**third_rail)


def test_the_piece_ends_at_the_cap_by_itself(piece: Any) -> None:
    assert piece.sheet.ended(piece.at("15:59.999")) is None
    assert piece.sheet.ended(piece.at("16:00")) == 960_000


def test_taps_up_to_three_seconds_after_the_cap_count_as_at_the_cap(piece: Any) -> None:
    assert piece.tap("Noor", "16:03") == ""
    assert piece.tally("Noor").rounds[0].at == 960_000


def test_later_taps_are_refused_and_say_what_to_type(piece: Any) -> None:
    assert piece.tap("Noor", "16:03.001") == (
        "too late to tap for Noor, 3 s after the end: type the number, then n"
    )


def test_a_finish_after_the_cap_is_as_late_as_a_tap(for_time: Any) -> None:
    assert for_time.do(cmd.FinishNow("Noor"), "12:02") == ""
    assert for_time.score("Noor").score == "12:00"
    assert "too late" in for_time.do(cmd.FinishNow("Bram"), "12:04")


def test_enter_after_the_cap_changes_no_end(piece: Any) -> None:
    piece.happen(ev.SegmentEnded(piece.at("16:20")))
    assert piece.sheet.ended(piece.at("16:30")) == 960_000
    assert piece.sheet.late_by(piece.at("16:30")) == 30_000


def test_numbers_and_take_backs_are_never_late_until_settled(piece: Any) -> None:
    piece.tap("Noor", "2:00")
    assert piece.number("Noor", 12, "25:00", rounds=7) == ""
    assert piece.do(cmd.TakeBack("Noor"), "26:00") == ""
    assert piece.score("Noor").rounds == 1
    piece.settle("27:00")
    assert piece.number("Noor", 12, "28:00") == (
        "these scores are settled: correct one, with a reason"
    )


def test_when_every_lane_is_in_the_piece_shows_all_in_and_ends_ten_seconds_later(
    for_time: Any,
) -> None:
    for_time.do(cmd.FinishNow("Ilse"), "5:00")
    for_time.do(cmd.StopLane("Bram"), "5:30")
    assert for_time.sheet.all_in(for_time.at("5:30")) is None
    for_time.do(cmd.FinishNow("Noor"), "6:00")
    assert for_time.sheet.all_in(for_time.at("6:00")) == 360_000
    assert for_time.sheet.ended(for_time.at("6:09.999")) is None
    assert for_time.sheet.ended(for_time.at("6:10")) == 370_000


def test_a_take_back_within_that_time_keeps_it_open(for_time: Any) -> None:
    for name in ("Ilse", "Bram", "Noor"):
        for_time.do(cmd.FinishNow(name), "6:00")
    for_time.do(cmd.TakeBack("Noor"), "6:09")
    assert for_time.sheet.ended(for_time.at("8:00")) is None
    for_time.do(cmd.FinishNow("Noor"), "8:00")
    assert for_time.sheet.ended(for_time.at("8:10")) == 490_000


def test_a_take_back_after_that_time_does_not_start_the_clock_again(for_time: Any) -> None:
    for name in ("Ilse", "Bram", "Noor"):
        for_time.do(cmd.FinishNow(name), "6:00")
    for_time.do(cmd.TakeBack("Noor"), "6:11")
    assert for_time.sheet.ended(for_time.at("6:12")) == 370_000
    assert "too late" in for_time.tap("Noor", "6:30")
    assert for_time.number("Noor", 7, "6:40", rounds=3) == ""


def test_enter_when_all_are_in_ends_it_at_once(for_time: Any) -> None:
    for name in ("Ilse", "Bram", "Noor"):
        for_time.do(cmd.FinishNow(name), "6:00")
    for_time.happen(ev.SegmentEnded(for_time.at("6:04")))
    assert for_time.sheet.ended(for_time.at("6:04")) == 364_000


def test_that_enter_taken_back_leaves_the_rest_of_the_ten_seconds(for_time: Any) -> None:
    for name in ("Ilse", "Bram", "Noor"):
        for_time.do(cmd.FinishNow(name), "6:00")
    for_time.happen(ev.SegmentEnded(for_time.at("6:04")))
    assert for_time.do(cmd.TakeBack(), "6:05") == ""
    assert for_time.sheet.ended(for_time.at("6:09.999")) is None
    assert for_time.sheet.ended(for_time.at("6:10")) == 370_000


def test_a_tap_is_too_late_three_seconds_after_all_in_has_ended_the_piece(for_time: Any) -> None:
    for name in ("Ilse", "Bram", "Noor"):
        for_time.do(cmd.FinishNow(name), "6:00")
    assert for_time.sheet.late_by(for_time.at("6:09")) < 0
    assert for_time.sheet.late_by(for_time.at("6:13.5")) == 3500


def test_all_in_so_close_to_the_cap_ends_at_the_cap(for_time: Any) -> None:
    for name in ("Ilse", "Bram", "Noor"):
        for_time.do(cmd.FinishNow(name), "11:55")
    assert for_time.sheet.ended(for_time.at("12:00")) == 720_000


def test_entries_made_while_held_stand_at_the_held_reading_after_a_resume(piece: Any) -> None:
    piece.hold("2:00")
    piece.tap("Noor", "2:20")
    piece.resume("2:30")
    assert piece.tally("Noor").rounds[0].at == 120_000
    piece.tap("Noor", "3:30")
    assert piece.tally("Noor").rounds[1].at == 180_000


def test_if_the_hold_is_undone_they_stand_at_their_true_moment(piece: Any) -> None:
    piece.hold("2:00")
    piece.tap("Noor", "2:20")
    piece.undo_hold("2:30")
    assert piece.tally("Noor").rounds[0].at == 140_000


def test_if_the_undone_hold_passes_the_cap_the_piece_ends_then(piece: Any) -> None:
    piece.hold("15:50")
    piece.tap("Noor", "16:02")
    piece.tap("Bram", "16:05")
    assert piece.sheet.ended(piece.at("16:10")) is None
    piece.undo_hold("16:10")
    assert piece.sheet.ended(piece.at("16:10")) == 960_000
    assert piece.tally("Noor").rounds[0].at == 960_000, "within three seconds of the cap"
    assert piece.tally("Bram").rounds == (), "five seconds after it"
    assert "too late to tap for Bram" in piece.tally("Bram").doubts[0]


def test_a_number_given_while_held_belongs_to_the_interval_of_its_true_moment_once_undone(
    rehearsal: Any, headway: Any
) -> None:
    piece = rehearsal(**headway)
    piece.hold("0:19")
    piece.number("Noor", 14, "0:50")
    assert piece.tally("Noor").intervals[:2] == (14, None)
    piece.undo_hold("0:51")
    assert piece.tally("Noor").intervals[:2] == (None, 14)


def test_ended_by_hand_while_held_ends_at_the_held_reading(piece: Any) -> None:
    piece.hold("9:00")
    piece.happen(ev.SegmentEnded(piece.at("9:20")))
    assert piece.sheet.ended(piece.at("9:30")) == 540_000
    assert piece.tap("Noor", "9:22") == ""
    assert piece.tally("Noor").rounds[0].at == 540_000
    assert "too late" in piece.tap("Noor", "9:24")


def test_an_end_by_hand_can_be_taken_back_and_brought_back(piece: Any) -> None:
    piece.tap("Noor", "2:00")
    piece.hold("9:00")
    piece.happen(ev.SegmentEnded(piece.at("9:20")))
    piece.do(cmd.TakeBack(), "9:25")
    assert piece.sheet.ended(piece.at("9:30")) is None
    assert len(piece.tally("Noor").rounds) == 1
    piece.do(cmd.BringBack(), "9:40")
    assert piece.sheet.ended(piece.at("9:40")) == 540_000


def test_a_minute_more_moves_the_end_of_a_countdown(rehearsal: Any) -> None:
    piece = rehearsal(format="countdown", time="8:00", score="reps")
    piece.happen(ev.TimeAdded(piece.at("7:00"), 60_000))
    assert piece.sheet.ended(piece.at("8:30")) is None
    assert piece.sheet.ended(piece.at("9:00")) == 540_000
    assert piece.tap("Noor", "8:30") == ""


def test_a_clock_set_right_by_hand_moves_what_comes_after_it_and_nothing_before(piece: Any) -> None:
    piece.tap("Noor", "2:00")
    piece.happen(ev.ClockShifted(piece.at("3:00"), 5_000))
    piece.tap("Noor", "4:00")
    assert [r.at for r in piece.tally("Noor").rounds] == [120_000, 245_000]


def test_someone_who_comes_late_is_scored_on_the_class_clock_and_marked_late(piece: Any) -> None:
    lane = type(piece.lanes[0])("Tuva", "Tuva", "t", ("Tuva",), late=True)
    piece.happen(ev.LaneJoined(piece.at("4:00"), lane))
    piece.tap("Tuva", "6:00")
    piece.number("Tuva", 0, "16:10")
    assert piece.tally("Tuva").rounds[0].at == 360_000
    assert piece.tally("Tuva").rounds[0].split == 120_000, "from when she joined"
    score = piece.score("Tuva")
    assert (score.late, score.note, score.rank) == (True, "late", 1)
