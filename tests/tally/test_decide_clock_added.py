"""A clock without a plan: where it comes in, that no number moves, when it is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.model import Plan, Segment
from classclock.plan.open_class import segment_text
from classclock.plan.reading.clock_line import NoClock, read_clock_line
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide_clock import Decided, decide_added, decide_clock
from classclock.tally.lane_keys import people_named
from classclock.tally.lineup import MOST_LANES
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.refusal import Refusal

HOUR = 3_600_000


def clock(line: str = "rounds 12", way: int = 0) -> Segment:
    read = read_clock_line(line)
    assert not isinstance(read, NoClock)
    return read[way].segment


def folded(record: ClassRecord, *events: ev.Event) -> ClassRecord:
    for event in events:
        record = record.apply(1_000, event)
    return record


def done(record: ClassRecord, decided: Decided) -> ClassRecord:
    assert not isinstance(decided, Refusal), decided.text
    return folded(record, *decided)


def gone_on(record: ClassRecord, at: int) -> ClassRecord:
    """What was started is over, and let stand as it is."""
    return done(record, decide_clock(record, cmd.Next(all_stands=True), at))


def over(record: ClassRecord, at: int) -> ClassRecord:
    """What is on the board has run, and was gone on from."""
    return gone_on(done(record, decide_clock(record, cmd.Start(), at)), at + HOUR)


def started(record: ClassRecord, line: str, at: int) -> ClassRecord:
    """That clock counts in."""
    return done(record, decide_added(record, clock(line), at))


@pytest.fixture
def board(depot: Plan) -> ClassRecord:
    """A warm-up, a piece that is on the board, a cool-down; three people are here."""
    people = people_named(("Ilse", "Bram", "Noor"))
    opened = ev.ClassOpened(0, "depot", "", "kg", people, None)
    return folded(ClassRecord(depot), opened, ev.SegmentChosen(0, 1))


def names(record: ClassRecord) -> list[str]:
    return [record.plan.segment[index].name for index in record.in_order]


def test_it_counts_in_at_once_with_whoever_is_here_and_the_board_comes_after_it(
    board: ClassRecord,
) -> None:
    decided = decide_added(board, clock(), 5_000)
    assert [type(event) for event in decided] == [  # type: ignore[union-attr]
        ev.SegmentAdded,
        ev.SegmentStarted,
    ]
    record = done(board, decided)
    assert record.phase(5_001) == "count-in"
    assert record.sheet is not None
    assert [lane.name for lane in record.sheet.lanes] == ["Ilse", "Bram", "Noor"]
    assert names(record) == ["Warm-up", "Rounds 12:00", "Turntable", "Cool-down"]
    assert record.place == 1
    after = gone_on(record, HOUR)
    assert after.segment.name == "Turntable"
    assert after.sheet is None


def test_the_plans_segments_keep_their_numbers_and_what_was_chosen_for_them(
    board: ClassRecord,
) -> None:
    chosen = ev.OptionChosen(1_000, "Ilse", 1, (1,), None, 0)
    before = folded(board, chosen)
    record = done(before, decide_added(before, clock(), 5_000))
    assert record.plan.segment[:3] == before.plan.segment
    assert record.choices == before.choices
    assert record.chosen == RunKey(3)
    assert record.choice("Ilse", 3).options == ()


def test_up_and_down_go_in_the_order_in_which_they_come(board: ClassRecord) -> None:
    record = gone_on(started(board, "down 5", 5_000), HOUR)
    assert record.segment.name == "Turntable"
    up = done(record, decide_clock(record, cmd.GoTo(-1), 2 * HOUR))
    assert up.segment.name == "Down 5:00"
    first = done(up, decide_clock(up, cmd.GoTo(-1), 2 * HOUR))
    assert first.segment.name == "Warm-up"
    assert decide_clock(first, cmd.GoTo(-1), 2 * HOUR) == Refusal("this is the first segment")
    assert done(up, decide_clock(up, cmd.GoTo(1), 2 * HOUR)).segment.name == "Turntable"


def test_once_the_class_is_over_it_is_the_last_and_the_class_goes_on(board: ClassRecord) -> None:
    closed = over(over(board, 5_000), 2 * HOUR)
    assert closed.closed
    record = started(closed, "down 5", 4 * HOUR)
    assert not record.closed
    assert names(record) == ["Warm-up", "Turntable", "Cool-down", "Down 5:00"]
    assert record.beside(1) is None
    end = gone_on(record, 5 * HOUR)
    assert end.closed
    assert decide_clock(end, cmd.GoTo(1), 6 * HOUR) == Refusal("this is the last segment")


def test_a_second_of_the_same_has_a_number_in_its_name(board: ClassRecord) -> None:
    once = gone_on(started(board, "rounds 12", 5_000), HOUR)
    twice = gone_on(started(once, "rounds 12", 2 * HOUR), 3 * HOUR)
    assert names(twice)[1:4] == ["Rounds 12:00", "Rounds 12:00 (2)", "Turntable"]
    assert [run.segment for run in twice.pieces()] == [3, 4]


def test_one_that_was_called_off_gives_its_place_to_the_next(board: ClassRecord) -> None:
    wrong = started(board, "rounds 1:20", 5_000)
    back = done(wrong, decide_clock(wrong, cmd.CallOff(), 6_000))
    assert back.segment.name == "Rounds 1:20"
    right = started(back, "rounds 12", 8_000)
    assert names(right) == ["Warm-up", "Rounds 12:00", "Turntable", "Cool-down"]
    assert right.segment.name == "Rounds 12:00"
    assert right.chosen == RunKey(4), "what was chosen for the first isn't taken for the second's"
    again = done(right, decide_clock(right, cmd.CallOff(), 9_000))
    same = started(again, "rounds 12", 10_000)
    assert names(same) == ["Warm-up", "Rounds 12:00", "Turntable", "Cool-down"]


@pytest.mark.parametrize(
    ("seconds", "says"),
    [
        (6, "the count-in runs: space calls it off, then ctrl+g starts another clock"),
        (60, "the clock runs: space holds it, enter ends it, then ctrl+g starts another"),
        (3_600, "this segment is over: enter goes on, then ctrl+g starts another clock"),
    ],
)
def test_it_waits_for_what_is_on(board: ClassRecord, seconds: int, says: str) -> None:
    record = done(board, decide_clock(board, cmd.Start(), 5_000))
    assert decide_added(record, clock(), seconds * 1000) == Refusal(says)


def test_before_a_second_heat_it_comes_between_the_two(depot: Plan) -> None:
    people = people_named(tuple(f"Athlete {number}" for number in range(MOST_LANES + 1)))
    opened = ev.ClassOpened(0, "depot", "", "kg", people, None)
    record = folded(ClassRecord(depot), opened, ev.SegmentChosen(0, 1))
    second = over(record, 5_000)
    assert second.chosen == RunKey(1, 1, heat=2)
    after = gone_on(started(second, "down 5", 2 * HOUR), 3 * HOUR)
    assert after.chosen == RunKey(1, 1, heat=2)
    assert after.phase(4 * HOUR) == "board"


def test_a_record_that_begins_with_all_its_segments_comes_to_the_same(board: ClassRecord) -> None:
    """What is on disk is folded from the whole plan, to tell what would be lost."""
    added = decide_added(board, clock(), 5_000)
    assert not isinstance(added, Refusal)
    once = folded(board, *added)
    whole = folded(ClassRecord(once.plan), ev.ClassOpened(0, "depot", "", "kg", board.people, None))
    again = folded(whole, ev.SegmentChosen(0, 1), *added)
    assert (again.plan, again.order, again.runs) == (once.plan, once.order, once.runs)


@pytest.mark.parametrize(
    "event",
    [
        ev.SegmentAdded(0, 7, segment_text(clock()), 1),
        ev.SegmentAdded(0, 3, segment_text(clock()), 9),
        ev.SegmentAdded(0, 3, "title = 'x'", 1),
    ],
)
def test_one_that_cannot_be_is_no_part_of_the_record(
    board: ClassRecord, event: ev.SegmentAdded
) -> None:
    with pytest.raises(ValueError):  # noqa: PT011  what a replay says of it is tested there
        board.apply(0, event)


LINES = ("rounds 12", "down 5", "8 x 20/10", "for time 15")


@given(steps=st.lists(st.sampled_from([*LINES, "next", "up", "down"]), max_size=12))
def test_whatever_is_added_each_segment_comes_once_and_the_plans_own_stay(
    depot: Plan, steps: list[str]
) -> None:
    opened = ev.ClassOpened(0, "depot", "", "kg", people_named(("Ilse",)), None)
    record, at = ClassRecord(depot).apply(0, opened), 0
    for step in steps:
        at += 2 * HOUR
        decided: Decided
        if step in LINES:
            decided = decide_added(record, clock(step), at)
        elif step == "next":
            decided = decide_clock(record, cmd.Next(all_stands=True), at)
        else:
            decided = decide_clock(record, cmd.GoTo(1 if step == "down" else -1), at)
        if not isinstance(decided, Refusal):
            record = folded(record, *decided)
        assert sorted(record.in_order) == list(range(len(record.plan.segment)))
        assert record.chosen.segment in record.in_order
        own = [index for index in record.in_order if index < len(depot.segment)]
        assert own == list(range(len(depot.segment)))
        assert record.plan.segment[: len(depot.segment)] == depot.segment
        ran = [run.segment for run in record.pieces()]
        assert ran == [index for index in record.in_order if index in ran]
