from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.clock.timeline import Reading, Timeline
from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Segment
from classclock.units.times import show_time

Write = Callable[..., Segment]


def without_elapsed(reading: Reading) -> tuple[object, ...]:
    return (reading.span, reading.shown, reading.total_left, reading.over)


@pytest.mark.parametrize(
    ("elapsed", "shown"),
    [
        (0, "16:00"),
        (1, "16:00"),
        (999, "16:00"),
        (1_000, "15:59"),
        (1_001, "15:59"),
        (900_000, "1:00"),
        (958_999, "0:02"),
        (959_000, "0:01"),
        (959_999, "0:01"),
        (960_000, "0:00"),
        (961_500, "0:00"),
    ],
)
def test_counting_down_shows_one_second_until_exactly_zero(
    write: Write, elapsed: int, shown: str
) -> None:
    reading = timeline(write("rounds-in-time", time="16:00")).at(elapsed)
    assert show_time(reading.shown * 1000) == shown
    assert reading.over == (elapsed >= 960_000)


@pytest.mark.parametrize(
    ("elapsed", "shown"),
    [(0, "0:00"), (999, "0:00"), (1_000, "0:01"), (719_999, "11:59"), (720_000, "12:00")],
)
def test_counting_up_shows_the_seconds_gone_and_at_the_end_the_cap(
    write: Write, elapsed: int, shown: str
) -> None:
    capped = timeline(write("capped-for-time", cap="12:00"))
    assert show_time(capped.at(elapsed).shown * 1000) == shown
    upward = timeline(write("rounds-in-time", time="12:00", direction="up"))
    assert upward.at(elapsed).shown == capped.at(elapsed).shown
    assert capped.at(730_000).shown == 720, "at the cap it stands"


def test_no_roll_over_before_the_hour(write: Write) -> None:
    """59:59 is followed by 1:00:00: NIST SP 960-12, table 3."""
    line = timeline(write("capped-for-time", cap="1:10:00"))
    shown = [show_time(line.at(seconds * 1000).shown * 1000) for seconds in (3599, 3600, 3601)]
    assert shown == ["59:59", "1:00:00", "1:00:01"]


@pytest.mark.parametrize(
    ("elapsed", "shown"), [(-10_000, 10), (-9_999, 10), (-9_000, 9), (-1_000, 1), (-1, 1)]
)
def test_the_count_in_shows_the_seconds_to_go(write: Write, elapsed: int, shown: int) -> None:
    reading = timeline(write("capped-for-time", cap="12:00")).at(elapsed)
    assert (reading.span.kind, reading.shown) == ("count-in", shown)
    assert reading.total_left == 720, "the piece has not begun"


def test_an_interval_counts_down_within_the_step_with_the_total_beside(write: Write) -> None:
    line = timeline(write("interval", repeat=8, steps=[{"work": 20}, {"rest": 10}]))
    table = [
        (0, "work", 1, 20, 230),
        (19_999, "work", 1, 1, 211),
        (20_000, "rest", 1, 10, 210),
        (29_001, "rest", 1, 1, 201),
        (30_000, "work", 2, 20, 200),
        (229_999, "work", 8, 1, 1),
        (230_000, "work", 8, 0, 0),
    ]
    for elapsed, kind, number, shown, left in table:
        reading = line.at(elapsed)
        assert (reading.span.kind, reading.span.number) == (kind, number)
        assert (reading.shown, reading.total_left) == (shown, left)


def test_work_steps_are_numbered_from_one_each_rest_as_the_work_before_it(write: Write) -> None:
    line = timeline(write("interval", repeat=2, steps=[{"work": 20}, {"rest": 10}]))
    assert [(span.kind, span.number) for span in line.spans] == [
        ("count-in", 0),
        ("work", 1),
        ("rest", 1),
        ("work", 2),
    ]


def test_before_the_count_in_and_after_the_end_the_clock_stands(write: Write) -> None:
    line = timeline(write("countdown", time="1:00"))
    assert line.at(-99_000) == line.at(-10_000)
    assert line.at(99_000) == line.at(60_000)
    assert line.next_change(60_000) is None


@pytest.fixture(scope="module")
def lines(write: Write) -> list[Timeline]:
    steps = [{"work": "0:07.25"}, {"rest": "0:03"}, {"work": "0:00.4"}]
    return [
        timeline(write("countdown", time="0:12.345", count_in="0:03.5")),
        timeline(write("rounds-in-time", time="0:12", direction="up")),
        timeline(write("capped-for-time", cap="0:09.8")),
        timeline(write("interval", repeat=2, steps=steps)),
    ]


@settings(max_examples=40)
@given(which=st.integers(0, 3), at=st.integers(-12_000, 24_000))
def test_nothing_that_is_shown_changes_before_the_next_change(
    lines: list[Timeline], which: int, at: int
) -> None:
    line = lines[which]
    start = max(at, line.spans[0].start)
    change = line.next_change(at)
    if change is None:
        assert start >= line.total
        return
    assert start < change <= min(start + 1000, line.total)
    now = without_elapsed(line.at(start))
    assert all(without_elapsed(line.at(moment)) == now for moment in range(start, change))
    assert without_elapsed(line.at(change)) != now
