"""Taking back, bringing back, and moving an entry to the lane whose it was."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.tally import commands as cmd
from classclock.tally import events as ev

NAMES = ("Ilse", "Bram", "Noor")


@pytest.fixture
def piece(rehearsal: Any, turntable: Any) -> Any:
    return rehearsal(**turntable)


def test_taking_back_a_lane_takes_back_its_last_entry(piece: Any) -> None:
    piece.tap("Noor", "1:00", "2:00")
    piece.tap("Bram", "2:10")
    piece.do(cmd.TakeBack("Noor"), "2:20")
    assert len(piece.tally("Noor").rounds) == 1
    assert len(piece.tally("Bram").rounds) == 1


def test_backspace_takes_back_the_newest_entry_whoevers(piece: Any) -> None:
    piece.tap("Noor", "1:00")
    piece.tap("Bram", "1:10")
    piece.do(cmd.TakeBack(), "1:20")
    assert (len(piece.tally("Noor").rounds), len(piece.tally("Bram").rounds)) == (1, 0)
    piece.do(cmd.TakeBack(), "1:21")
    assert piece.do(cmd.TakeBack(), "1:22") == "there is nothing to take back"


def test_nothing_is_erased_a_take_back_is_one_more_event(piece: Any) -> None:
    piece.tap("Noor", "1:00")
    piece.do(cmd.TakeBack("Noor"), "1:10")
    assert piece.events == [
        ev.Tapped(piece.at("1:00"), "Noor"),
        ev.TookBack(piece.at("1:10"), 0),
    ]


def test_what_was_last_taken_back_is_brought_back_with_its_moment(piece: Any) -> None:
    piece.tap("Noor", "1:00")
    piece.do(cmd.TakeBack("Noor"), "1:10")
    piece.do(cmd.BringBack(), "1:30")
    assert piece.tally("Noor").rounds[0].at == 60_000


def test_several_are_brought_back_one_after_the_other_the_latest_first(piece: Any) -> None:
    piece.tap("Noor", "1:00")
    piece.tap("Bram", "1:10")
    piece.do(cmd.TakeBack(), "1:20")
    piece.do(cmd.TakeBack(), "1:21")
    piece.do(cmd.BringBack(), "1:22")
    assert (len(piece.tally("Noor").rounds), len(piece.tally("Bram").rounds)) == (1, 0)
    piece.do(cmd.BringBack(), "1:23")
    assert len(piece.tally("Bram").rounds) == 1
    assert piece.do(cmd.BringBack(), "1:24") == "nothing was taken back"


def test_a_lane_without_entries_has_nothing_to_take_back(piece: Any) -> None:
    assert piece.do(cmd.TakeBack("Noor"), "1:00") == "there is nothing of Noor's to take back"


def test_two_calls_swapped_the_last_entry_moves_to_the_other_lane_with_its_moment(
    piece: Any,
) -> None:
    piece.tap("Noor", "1:00")
    piece.tap("Bram", "1:30")
    piece.do(cmd.Move("Noor", "Bram"), "1:40")
    assert piece.tally("Noor").rounds == ()
    assert [r.at for r in piece.tally("Bram").rounds] == [60_000, 90_000]


def test_a_move_is_undone_by_moving_back(piece: Any) -> None:
    piece.tap("Noor", "1:00")
    piece.tap("Bram", "1:30")
    before = piece.sheet.tallies
    piece.do(cmd.Move("Noor", "Bram"), "1:40")
    piece.do(cmd.Move("Bram", "Noor"), "1:45")
    assert piece.sheet.tallies == before


def test_a_moved_entry_is_the_newest_for_backspace_after_the_piece_was_ended_too(
    piece: Any,
) -> None:
    piece.tap("Noor", "1:00")
    piece.hold("1:10")
    piece.happen(ev.SegmentEnded(piece.at("1:20")))
    piece.do(cmd.Move("Noor", "Bram"), "1:30")
    piece.do(cmd.TakeBack(), "1:40")
    assert piece.tally("Bram").rounds == ()
    assert piece.sheet.ended(piece.at("1:40")) == 70_000, "the end stands"
    piece.do(cmd.TakeBack(), "1:50")
    assert piece.sheet.ended(piece.at("1:50")) is None, "the end was the newest then"


def test_a_moved_entry_is_its_new_lanes_newest_and_the_newest_of_all(piece: Any) -> None:
    piece.tap("Noor", "1:00")
    piece.tap("Bram", "1:30")
    piece.tap("Ilse", "1:35")
    piece.do(cmd.Move("Noor", "Bram"), "1:40")
    piece.do(cmd.TakeBack(), "1:50")
    assert [r.at for r in piece.tally("Bram").rounds] == [90_000]
    assert len(piece.tally("Ilse").rounds) == 1
    piece.do(cmd.BringBack(), "1:55")
    piece.do(cmd.TakeBack("Bram"), "2:00")
    assert [r.at for r in piece.tally("Bram").rounds] == [90_000]


def test_an_entry_that_would_not_count_in_the_other_lane_stays(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(**third_rail)
    piece.do(cmd.FinishNow("Bram"), "5:00")
    piece.tap("Noor", "5:10")
    said = piece.do(cmd.Move("Noor", "Bram"), "5:20")
    assert said == "Bram has finished: -b takes it back"
    assert len(piece.tally("Noor").rounds) == 1


def test_an_entry_does_not_move_to_its_own_lane(piece: Any) -> None:
    piece.tap("Noor", "1:00")
    assert "the same lane" in piece.do(cmd.Move("Noor", "Noor"), "1:10")
    assert "nothing of Bram's" in piece.do(cmd.Move("Bram", "Noor"), "1:10")


def test_a_tap_brought_back_behind_a_finish_counts_nothing_and_says_so(
    rehearsal: Any, third_rail: Any
) -> None:
    piece = rehearsal(**third_rail)
    piece.tap("Noor", "1:00")
    piece.do(cmd.FinishNow("Noor"), "5:00")
    piece.do(cmd.TakeBack("Noor"), "5:02")
    piece.tap("Noor", "5:30")
    piece.do(cmd.BringBack(), "5:40")
    assert piece.tally("Noor").finish == 300_000
    assert "Noor has finished: -n takes it back" in piece.tally("Noor").doubts


names = st.sampled_from(NAMES)
entries = st.one_of(
    st.builds(cmd.Tap, names),
    st.builds(cmd.SetNumber, names, st.decimals(0, 30, places=0), st.none() | st.integers(0, 9)),
    st.builds(cmd.FinishNow, names),
    st.builds(cmd.StopLane, names),
    st.builds(cmd.ChangeOption, names, st.integers(0, 3)),
)
undos = st.one_of(
    st.builds(cmd.TakeBack, st.none() | names),
    st.builds(cmd.BringBack),
    st.builds(cmd.Move, names, names),
)
courses = st.lists(st.one_of(entries, entries, undos), max_size=30)


def _play(piece: Any, course: list[cmd.CountCommand]) -> None:
    for second, command in enumerate(course, start=30):
        piece.do(command, f"{second // 6}:{second % 6}0")


@settings(max_examples=60)
@given(course=courses, name=st.none() | names)
def test_taking_back_and_bringing_back_changes_nothing(
    rehearsal: Any, third_rail: Any, course: list[cmd.CountCommand], name: str | None
) -> None:
    piece = rehearsal(**third_rail)
    _play(piece, course)
    before = piece.sheet.tallies
    if piece.do(cmd.TakeBack(name), "11:00") == "":
        assert piece.sheet.tallies != before
        piece.do(cmd.BringBack(), "11:01")
    assert piece.sheet.tallies == before


@settings(max_examples=60)
@given(course=courses)
def test_counting_again_from_the_entries_comes_to_the_same(
    rehearsal: Any, third_rail: Any, course: list[cmd.CountCommand]
) -> None:
    piece = rehearsal(**third_rail)
    _play(piece, course)
    assert piece.sheet.refold().tallies == piece.sheet.tallies
    again = rehearsal(**third_rail)
    for event in piece.events:
        again.happen(event)
    assert again.sheet == piece.sheet


@settings(max_examples=60)
@given(taps=st.lists(names, max_size=20), moves=st.lists(st.tuples(names, names), max_size=5))
def test_moving_entries_keeps_the_total_count(
    rehearsal: Any, turntable: Any, taps: list[str], moves: list[tuple[str, str]]
) -> None:
    piece = rehearsal(**turntable)
    _play(piece, [cmd.Tap(name) for name in taps])
    for giver, taker in moves:
        piece.do(cmd.Move(giver, taker), "15:00")
    assert sum(len(piece.tally(name).rounds) for name in NAMES) == len(taps)


@settings(max_examples=60)
@given(course=courses)
def test_what_was_accepted_live_always_counts(
    rehearsal: Any, third_rail: Any, course: list[cmd.CountCommand]
) -> None:
    piece = rehearsal(**third_rail)
    _play(piece, [c for c in course if not isinstance(c, cmd.TakeBack | cmd.BringBack | cmd.Move)])
    assert not any(piece.tally(name).uncounted for name in NAMES)
