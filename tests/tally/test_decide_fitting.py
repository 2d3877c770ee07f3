"""What may be made shorter or left out, and how the class goes on: events, or a refusal."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.formats.fit import Fit
from classclock.plan.formats.timelines import length
from classclock.plan.model import Plan
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide_clock import decide_clock
from classclock.tally.decide_fitting import can_be_fitted, decide_fitting
from classclock.tally.fitted_words import described, fitted_words
from classclock.tally.lane_keys import people_named
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.refusal import Refusal
from classclock.tally.said import said
from tests.written_segments import Write

WARM_UP, PIECE, COOL_DOWN = 0, 1, 2
AT = 5_000
SHORTER, OUT = Fit(length=12 * 60_000), Fit(left_out=True)


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for number, event in enumerate(events, start=1_000):
        record = record.apply(number, event)
    return record


def fitted(record: ClassRecord, segment: int, fit: Fit | None) -> ClassRecord:
    decided = decide_fitting(record, segment, fit, AT)
    assert not isinstance(decided, Refusal), decided.text
    return folded(record, *decided)


def refused(record: ClassRecord, segment: int, fit: Fit | None, at: int = AT) -> str:
    decided = decide_fitting(record, segment, fit, at)
    assert isinstance(decided, Refusal), decided
    return decided.text


def going_on(record: ClassRecord, steps: int) -> int | None:
    decided = decide_clock(record, cmd.GoTo(steps), AT)
    if isinstance(decided, Refusal):
        return None
    (chosen,) = decided
    assert isinstance(chosen, ev.SegmentChosen)
    return chosen.segment


@pytest.fixture
def board(depot: Plan) -> ClassRecord:
    """The warm-up on the board, three people here."""
    people = people_named(("Ilse", "Bram", "Noor"))
    return folded(ClassRecord(depot), ev.ClassOpened(0, "depot", "", "kg", people, None))


def test_a_shorter_piece_starts_with_its_shorter_clock(board: ClassRecord) -> None:
    record = fitted(board, PIECE, SHORTER)
    assert record.segment == board.segment, "the others stay"
    record = folded(record, ev.SegmentChosen(AT, PIECE), ev.SegmentStarted(AT, PIECE, 1, AT, ()))
    assert record.sheet is not None
    assert record.sheet.timeline.total == 12 * 60_000
    assert record.phase(AT + 12 * 60_000 - 1) == "running"
    assert record.phase(AT + 12 * 60_000) == "over"
    assert fitted_words(record, PIECE) == "12:00 of 16:00 planned"
    words = described(record, PIECE, record.sheet)
    assert words == "rounds in 12:00, 18 reps a round; 12:00 of 16:00 planned"


def test_as_planned_again_is_the_plan_again(board: ClassRecord, depot: Plan) -> None:
    record = fitted(fitted(board, PIECE, SHORTER), COOL_DOWN, OUT)
    assert record.plan != depot
    assert fitted(fitted(record, PIECE, None), COOL_DOWN, None) == board
    assert fitted_words(board, PIECE) == ""


def test_a_second_fit_goes_from_the_plan_not_from_the_first(board: ClassRecord) -> None:
    record = fitted(fitted(board, PIECE, Fit(length=8 * 60_000)), PIECE, SHORTER)
    assert length(record.plan.segment[PIECE]) == 12 * 60_000
    assert record.planned(PIECE) == board.plan.segment[PIECE]


def test_what_is_left_out_is_passed_by_and_can_be_gone_back_to(board: ClassRecord) -> None:
    record = fitted(board, PIECE, OUT)
    assert record.to_come == (WARM_UP, COOL_DOWN)
    assert going_on(record, 1) == COOL_DOWN
    cooling = folded(record, ev.SegmentChosen(AT, COOL_DOWN))
    assert going_on(cooling, -1) == PIECE
    assert going_on(cooling, 1) is None
    back = folded(cooling, ev.SegmentChosen(AT, PIECE))
    assert back.to_come == (PIECE, COOL_DOWN), "who goes back to it means to run it"
    (started,) = decide_clock(back, cmd.Start(), AT)  # type: ignore[misc]
    assert isinstance(started, ev.SegmentStarted)


def test_when_the_last_is_left_out_the_class_ends_before_it(board: ClassRecord) -> None:
    record = fitted(board, COOL_DOWN, OUT)
    record = folded(record, ev.SegmentChosen(AT, PIECE), ev.SegmentStarted(AT, PIECE, 1, AT, ()))
    over = AT + 17 * 60_000
    decided = decide_clock(record, cmd.Next(), over)
    assert decided == (ev.Settled(over, PIECE, 1), ev.ClassClosed(over))
    closed = folded(record, *decided)
    assert going_on(closed, 1) is None
    assert going_on(closed, -1) == COOL_DOWN


def test_the_one_on_the_board_gives_way_to_the_next(board: ClassRecord) -> None:
    on_board = folded(board, ev.SegmentChosen(AT, PIECE))
    assert decide_fitting(on_board, PIECE, OUT, AT) == (
        ev.SegmentFitted(AT, PIECE, OUT),
        ev.SegmentChosen(AT, COOL_DOWN),
    )
    last = folded(board, ev.SegmentChosen(AT, COOL_DOWN))
    assert refused(last, COOL_DOWN, OUT).startswith("nothing comes after it: ctrl+q")


def test_what_has_begun_goes_on_as_it_began(board: ClassRecord) -> None:
    begun = folded(board, ev.SegmentStarted(AT, WARM_UP, 1, AT + 10_000, ()))
    assert "on the board, before a start" in refused(begun, PIECE, SHORTER)
    over = folded(begun, ev.SegmentChosen(AT + 90_000, PIECE))
    assert not can_be_fitted(over, WARM_UP)
    assert refused(over, WARM_UP, OUT, AT + 90_000) == (
        "Warm-up has been started: it goes on as it began"
    )
    anew = folded(over, ev.SegmentChosen(AT + 90_000, WARM_UP, anew=True))
    assert can_be_fitted(anew, WARM_UP), "once more is a run of its own"


def test_what_was_run_shorter_says_so_though_it_is_run_again_as_planned(
    board: ClassRecord,
) -> None:
    record = folded(fitted(board, PIECE, SHORTER), ev.SegmentChosen(AT, PIECE))
    record = folded(record, ev.SegmentStarted(AT, PIECE, 1, AT, ()))
    record = folded(record, ev.SegmentChosen(AT + 800_000, PIECE, anew=True))
    record = fitted(record, PIECE, None)
    first = record.runs[RunKey(PIECE)]
    assert fitted_words(record, PIECE, first) == "12:00 of 16:00 planned"
    assert fitted_words(record, PIECE) == ""


@pytest.mark.parametrize(("added", "words"), [(60_000, "9:00 of 10:00 planned"), (120_000, "")])
def test_minutes_that_a_countdown_gets_again_count(write: Write, added: int, words: str) -> None:
    planned = write("countdown", time="10:00", score="reps")
    record = fitted(
        ClassRecord(Plan.model_construct(title="Depot", segment=(planned,))),
        0,
        Fit(length=480_000),
    )
    record = folded(record, ev.SegmentStarted(AT, 0, 1, AT, ()), ev.TimeAdded(AT + 1_000, added))
    assert fitted_words(record, 0, record.sheet) == words


def test_minutes_that_are_taken_while_it_runs_make_no_other_piece_of_it(write: Write) -> None:
    planned = write("countdown", time="10:00", score="reps")
    record = ClassRecord(Plan.model_construct(title="Depot", segment=(planned,)))
    record = folded(record, ev.SegmentStarted(AT, 0, 1, AT, ()), ev.TimeAdded(AT + 1_000, -60_000))
    assert fitted_words(record, 0, record.sheet) == ""


@pytest.mark.parametrize("fit", [Fit(), Fit(repeat=2), Fit(length=20 * 60_000)])
def test_what_a_format_cannot_do_is_refused(board: ClassRecord, fit: Fit) -> None:
    assert refused(board, PIECE, fit) == "Turntable can't be made so short: take another way"


def test_there_is_nothing_to_take_back_where_nothing_was_fitted(board: ClassRecord) -> None:
    assert refused(board, PIECE, None) == "Turntable is as planned already"


def test_it_is_said_in_a_coachs_words(board: ClassRecord) -> None:
    def words(segment: int, fit: Fit | None, record: ClassRecord = board) -> str:
        event = ev.SegmentFitted(AT, segment, fit)
        return said(event, record.apply(1, event))

    assert words(PIECE, SHORTER) == "Turntable: 12:00 of 16:00 planned"
    assert words(PIECE, None) == "Turntable: as planned again"
    assert words(COOL_DOWN, OUT) == "Cool-down is left out: going on passes it by"
    assert words(WARM_UP, OUT) == "Warm-up is left out: up goes back to it"


@given(st.lists(st.tuples(st.integers(0, 2), st.sampled_from([SHORTER, OUT, None])), max_size=8))
def test_whatever_was_fitted_taking_it_back_gives_the_plan(
    depot: Plan, changes: list[tuple[int, Any]]
) -> None:
    record = before = ClassRecord(depot)
    for segment, fit in changes:
        decided = decide_fitting(record, segment, fit, AT)
        if not isinstance(decided, Refusal):
            record = folded(record, *decided)
    for segment in tuple(record.fits):
        record = fitted(record, segment, None)
    assert (record.plan, record.fits) == (before.plan, {})
