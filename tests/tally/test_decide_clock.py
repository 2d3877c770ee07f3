"""What the clock's keys may do in each phase: from a record and a moment, events or a refusal."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.model import Plan
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide_clock import Decided, decide_clock
from classclock.tally.lane_keys import people_named
from classclock.tally.lineup import MOST_LANES
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal

WARM_UP, PIECE = 0, 1
OPENED = 0
STARTED = 10_000
GO = 20_000
"""After a count-in of 10 s."""


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=1_000):
        record = record.apply(number, event)
    return record


def carried_out(record: ClassRecord, decided: Decided) -> ClassRecord:
    assert not isinstance(decided, Refusal), decided.text
    return folded(record, *decided)


def refusal(decided: Decided) -> str:
    assert isinstance(decided, Refusal), decided
    return decided.text


@pytest.fixture
def board(depot: Plan) -> ClassRecord:
    """The piece on the board, three people here."""
    people = people_named(("Ilse", "Bram", "Noor"))
    opened = ev.ClassOpened(OPENED, "depot", "", "kg", people, None)
    return folded(ClassRecord(depot), opened, ev.SegmentChosen(OPENED, PIECE))


@pytest.fixture
def counting_in(board: ClassRecord) -> ClassRecord:
    return carried_out(board, decide_clock(board, cmd.Start(), STARTED))


@pytest.fixture
def over(counting_in: ClassRecord) -> ClassRecord:
    """The cap has passed; Ilse's odd reps are known, Bram and Noor have only a round."""
    taps = [ev.Tapped(GO + 60_000, name) for name in ("Ilse", "Bram", "Noor")]
    return folded(counting_in, *taps, ev.Numbered(GO + 70_000, "Ilse", reps=4))


CAP = GO + 16 * 60_000


def test_start_draws_the_lanes_and_go_comes_after_the_count_in(board: ClassRecord) -> None:
    (started,) = decide_clock(board, cmd.Start(), STARTED)  # type: ignore[misc]
    assert isinstance(started, ev.SegmentStarted)
    assert (started.segment, started.heat, started.go) == (PIECE, 1, GO)
    assert [lane.name for lane in started.lanes] == ["Ilse", "Bram", "Noor"]


def test_a_segment_that_isnt_scored_starts_without_lanes(board: ClassRecord) -> None:
    record = folded(board, ev.SegmentChosen(500, WARM_UP))
    assert decide_clock(record, cmd.Start(), STARTED) == (
        ev.SegmentStarted(STARTED, WARM_UP, 1, GO, ()),
    )


PHASES = {"count-in": STARTED + 1, "running": GO + 100_000, "over": CAP + 60_000}


@pytest.mark.parametrize(
    ("command", "phase", "words"),
    [
        (cmd.Start(), "running", "this segment has started already"),
        (cmd.CallOff(), "running", "the clock runs: space holds it"),
        (cmd.HoldClock(), "count-in", "no clock is running"),
        (cmd.HoldClock(), "over", "no clock is running"),
        (cmd.Resume(), "running", "hold the clock first: space"),
        (cmd.UndoHold(), "running", "hold the clock first: space"),
        (cmd.EndSegment(), "running", "hold the clock first: space"),
        (cmd.Restart(), "running", "hold the clock first: space"),
        (cmd.AddTime(1), "count-in", "no clock is running"),
        (cmd.AddTime(1), "running", "only a countdown can be made longer or shorter"),
        (cmd.ShiftClock(1000), "over", "no clock is running"),
        (cmd.Next(), "running", "the clock runs: space holds it"),
        (cmd.GoTo(1), "running", "the clock runs: space holds it, then enter ends the segment"),
    ],
)
def test_what_a_phase_doesnt_allow_is_refused_with_what_to_do(
    counting_in: ClassRecord, command: cmd.ClockCommand, phase: str, words: str
) -> None:
    assert counting_in.phase(PHASES[phase]) == phase
    assert refusal(decide_clock(counting_in, command, PHASES[phase])) == words


@pytest.mark.parametrize(
    ("command", "phase", "event"),
    [
        (cmd.CallOff(), "count-in", ev.CalledOff),
        (cmd.HoldClock(), "running", ev.Held),
        (cmd.ShiftClock(-1000), "running", ev.ClockShifted),
    ],
)
def test_what_a_phase_allows_is_one_event_at_that_moment(
    counting_in: ClassRecord, command: cmd.ClockCommand, phase: str, event: type
) -> None:
    (came,) = decide_clock(counting_in, command, PHASES[phase])  # type: ignore[misc]
    assert (type(came), came.at) == (event, PHASES[phase])


@pytest.mark.parametrize(
    ("command", "event"),
    [
        (cmd.Resume(), ev.Resumed),
        (cmd.UndoHold(), ev.HoldUndone),
        (cmd.EndSegment(), ev.SegmentEnded),
        (cmd.Restart(), ev.Restarted),
    ],
)
def test_a_held_clock_is_resumed_ended_or_begun_anew(
    counting_in: ClassRecord, command: cmd.ClockCommand, event: type
) -> None:
    held = folded(counting_in, ev.Held(GO + 30_000))
    (came,) = decide_clock(held, command, GO + 40_000)  # type: ignore[misc]
    assert type(came) is event


def test_once_all_are_in_enter_ends_the_piece_though_the_clock_isnt_held(
    counting_in: ClassRecord,
) -> None:
    stopped = [ev.StoppedHere(GO + 60_000, name) for name in ("Ilse", "Bram", "Noor")]
    record = folded(counting_in, *stopped)
    now = GO + 65_000
    assert decide_clock(record, cmd.EndSegment(), now) == (ev.SegmentEnded(now),)


def test_a_countdown_loses_no_more_than_is_left(board: ClassRecord) -> None:
    record = folded(board, ev.SegmentChosen(500, WARM_UP))
    record = carried_out(record, decide_clock(record, cmd.Start(), STARTED))
    now = GO + 20_500
    assert decide_clock(record, cmd.AddTime(1), now) == (ev.TimeAdded(now, 60_000),)
    assert refusal(decide_clock(record, cmd.AddTime(-1), now)) == (
        "only 0:40 is left: space, then enter, ends it"
    )


# -- going on ------------------------------------------------------------------


def test_going_on_lets_what_is_asked_stand_one_by_one_and_then_settles(over: ClassRecord) -> None:
    now = CAP + 5_000
    for name in ("Bram", "Noor"):
        decided = decide_clock(over, cmd.Next(), now)
        assert decided == (ev.LetStand(now, name, "not given"),)
        over = carried_out(over, decided)
    assert decide_clock(over, cmd.Next(), now) == (
        ev.Settled(now, PIECE, 1),
        ev.SegmentChosen(now, 2),
    )


def test_after_the_last_segment_the_class_closes_and_only_back_is_left(over: ClassRecord) -> None:
    last = folded(over, ev.Settled(CAP, PIECE, 1), ev.SegmentChosen(CAP, 2))
    last = carried_out(last, decide_clock(last, cmd.Start(), CAP + 10_000))
    end = CAP + 10_000 + 10_000 + 60_000
    assert decide_clock(last, cmd.Next(), end) == (ev.ClassClosed(end),)
    closed = folded(last, ev.ClassClosed(end))
    assert refusal(decide_clock(closed, cmd.Next(), end + 1)) == (
        "the class is over: ctrl+q leaves, up goes back to its last segment"
    )
    assert decide_clock(closed, cmd.GoTo(-1), end + 1) == (ev.SegmentChosen(end + 1, 2),)
    assert refusal(decide_clock(closed, cmd.GoTo(1), end + 1)) == "this is the last segment"


def test_between_segments_steps_stay_within_the_plan(board: ClassRecord) -> None:
    assert decide_clock(board, cmd.GoTo(-1), 600) == (ev.SegmentChosen(600, WARM_UP),)
    assert decide_clock(board, cmd.GoTo(1), 600) == (ev.SegmentChosen(600, 2),)
    assert decide_clock(board, cmd.GoTo(0), 600) == (ev.SegmentChosen(600, PIECE, 1, anew=True),)
    assert refusal(decide_clock(board, cmd.GoTo(-2), 600)) == "this is the first segment"
    assert refusal(decide_clock(board, cmd.GoTo(2), 600)) == "this is the last segment"


def test_more_than_a_heat_holds_go_on_to_the_next_heat_before_the_next_segment(
    depot: Plan,
) -> None:
    people = people_named(tuple(f"Tram {number}" for number in range(MOST_LANES + 2)))
    opened = ev.ClassOpened(OPENED, "depot", "", "kg", people, None)
    record = folded(ClassRecord(depot), opened, ev.SegmentChosen(OPENED, PIECE))
    for heat, then in ((1, ev.SegmentChosen(CAP, PIECE, 2)), (2, ev.SegmentChosen(CAP, 2))):
        started = carried_out(record, decide_clock(record, cmd.Start(), STARTED))
        assert started.sheet is not None
        assert {lane.heat for lane in started.sheet.lanes} == {heat}
        stood = [ev.LetStand(CAP, lane.id, "not given") for lane in started.sheet.lanes]
        started = folded(started, *stood)
        on = decide_clock(started, cmd.Next(), CAP)
        assert on == (ev.Settled(CAP, PIECE, heat), then)
        record = carried_out(started, on)


# -- whatever is pressed ---------------------------------------------------------

commands = st.one_of(
    *(st.builds(kind) for kind in (cmd.Start, cmd.CallOff, cmd.HoldClock, cmd.Resume)),
    *(st.builds(kind) for kind in (cmd.UndoHold, cmd.EndSegment, cmd.Restart, cmd.Next)),
    st.builds(cmd.AddTime, st.sampled_from((-2, -1, 1, 2))),  # no key asks for none
    st.builds(cmd.ShiftClock, st.sampled_from((-1_000, 1_000))),
    st.builds(cmd.GoTo, st.integers(-2, 2)),
)
steps = st.lists(st.tuples(st.integers(0, 600_000), commands), max_size=25)


@given(steps=steps)
def test_whatever_is_pressed_when_ends_in_a_class_or_in_words(depot: Plan, steps: Any) -> None:
    opened = ev.ClassOpened(OPENED, "depot", "", "kg", people_named(("Ilse", "Bram")), None)
    record = folded(ClassRecord(depot), opened)
    now = 0
    for wait, command in steps:
        now += wait
        decided = decide_clock(record, command, now)
        if isinstance(decided, Refusal):
            assert decided.text
            continue
        assert decided
        assert all(event.at == now for event in decided)
        after = folded(record, *decided)
        assert after != record
        record = after
