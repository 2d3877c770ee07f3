"""How long each round took: known, or unknown, but never less than none."""

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lanes import Lane
from classclock.tally.scores.on_for import marks_of, on_for
from classclock.wall.lane_bars import Ribbon, bar_of

LATE = Lane("Late", "Late", "l", ("Late",), late=True)


def ribbon_of(piece: Any, name: str, elapsed: int) -> Ribbon:
    bar = bar_of(piece.sheet.piece, piece.sheet.timeline, piece.tally(name), elapsed)
    assert isinstance(bar, Ribbon)
    return bar


@pytest.fixture
def moved(rehearsal: Any, turntable: Any) -> Any:
    """Noor's call at 1:00 was Late's, who joined at 1:40 and calls at 2:40."""
    piece = rehearsal(**turntable)
    piece.tap("Noor", "1:00")
    piece.happen(ev.LaneJoined(piece.at("1:40"), LATE))
    assert piece.do(cmd.Move("Noor", "Late"), "1:45") == ""
    piece.tap("Late", "2:40")
    return piece


def test_a_call_moved_to_a_latecomer_leaves_that_split_unknown(moved: Any) -> None:
    tally = moved.tally("Late")
    assert [(done.at, done.split) for done in tally.rounds] == [(60_000, None), (160_000, 100_000)]
    assert moved.score("Late").splits == (None, 100)


def test_nor_does_it_tell_a_pace(moved: Any) -> None:
    tally = moved.tally("Late")
    assert marks_of(tally) == ((160_000, 2 * 27),)
    assert on_for(moved.sheet.piece, tally, elapsed=170_000, cap=960_000) is None


def test_its_block_shares_the_time_until_the_next_call(moved: Any) -> None:
    assert [block.end for block in ribbon_of(moved, "Late", 170_000).rounds] == [130_000, 160_000]


def test_a_clock_set_back_by_hand_leaves_the_split_across_it_unknown(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Noor", "2:00")
    piece.happen(ev.ClockShifted(piece.at("2:10"), -60_000))
    piece.tap("Noor", "2:30", "4:30")
    assert [done.split for done in piece.tally("Noor").rounds] == [120_000, None, 120_000]
    assert piece.score("Noor").splits == (120, None, 120)
    assert marks_of(piece.tally("Noor")) == ((120_000, 27), (210_000, 81))


def test_a_station_before_the_one_before_tells_no_pace(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable, count="station")
    piece.tap("Noor", "2:00")
    piece.happen(ev.ClockShifted(piece.at("2:10"), -60_000))
    piece.tap("Noor", "2:30", "3:00")
    assert [pace.split for _, pace in piece.tally("Noor").paces] == [120_000, 30_000]


NAMES = ("Ilse", "Noor", "Late")
names = st.sampled_from(NAMES)
steps = st.lists(
    st.tuples(
        st.integers(0, 90_000),
        st.builds(cmd.Tap, names)
        | st.builds(cmd.Move, names, names)
        | st.builds(cmd.TakeBack, names)
        | st.builds(cmd.BringBack)
        | st.builds(cmd.FinishNow, names)
        | st.integers(-120_000, 120_000),
    ),
    max_size=25,
)


PIECES = (
    {"format": "rounds-in-time", "time": "16:00"},
    {"format": "rounds-in-time", "time": "16:00", "count": "station"},
    {"format": "capped-for-time", "cap": "12:00", "rounds": 5},
    {"format": "capped-for-time", "cap": "12:00", "rounds": 5, "count": "station"},
)


@settings(max_examples=200)
@given(course=steps, joins=st.integers(0, 300_000), fields=st.sampled_from(PIECES))
def test_whatever_is_called_moved_and_shifted_no_time_is_negative(
    rehearsal: Any, turntable: Any, course: Any, joins: int, fields: dict[str, Any]
) -> None:
    piece = rehearsal(("Ilse", "Noor"), station=turntable["station"], **fields)
    at = piece.go
    for wait, step in course:
        at += wait
        if at - piece.go >= joins and "Late" not in piece.sheet.tallies:
            piece.happen(ev.LaneJoined(piece.go + joins, LATE))
        if isinstance(step, int):
            piece.happen(ev.ClockShifted(at, step))
        elif all(name in piece.sheet.tallies for name in _named(step)):
            piece.do(step, _written(at - piece.go))
    now = max(0, piece.sheet.elapsed(at))
    for score in piece.scores():
        tally = piece.tally(score.lane.id)
        splits = [done.split for done in tally.rounds] + list(score.splits)
        assert all(split is None or split >= 0 for split in splits)
        assert all(pace.split >= 0 for _, pace in tally.paces)
        marks = marks_of(tally)
        assert all(t1 <= t2 and w1 <= w2 for (t1, w1), (t2, w2) in pairwise(marks))
        bar = bar_of(piece.sheet.piece, piece.sheet.timeline, tally, now)
        if isinstance(bar, Ribbon):
            ends = [tally.joined, *(block.end for block in bar.rounds)]
            assert ends == sorted(ends)


def _named(command: cmd.CountCommand) -> tuple[str, ...]:
    return tuple(filter(None, (getattr(command, "lane", None), getattr(command, "to", None))))


def _written(ms: int) -> str:
    minutes, rest = divmod(ms, 60_000)
    return f"{minutes}:{rest // 1000:02}.{rest % 1000:03}"
