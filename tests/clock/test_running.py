from hypothesis import given
from hypothesis import strategies as st
from msgspec import Struct, field

from classclock.clock.running import RunningTime

waits = st.lists(st.integers(0, 100_000), min_size=1, max_size=12)


def held_and_resumed(go: int, gaps: list[int]) -> tuple[RunningTime, int]:
    """A clock held and resumed in turn after each of these waits, and the moment of the last."""
    running, moment = RunningTime(go), go
    for number, gap in enumerate(gaps):
        moment += gap
        running = running.resume(moment) if number % 2 else running.hold(moment)
    return running, moment


class Stopwatch(Struct):
    """Counts one millisecond after the other: slow, and too plain to be wrong."""

    elapsed: int
    held: bool = False
    readings: list[int] = field(default_factory=list)

    def count(self, ms: int) -> None:
        for _ in range(ms):
            self.readings.append(self.elapsed)
            self.elapsed += not self.held


@given(st.integers(-50, 50), st.lists(st.integers(0, 60), min_size=1, max_size=8))
def test_the_clock_reads_what_a_stopwatch_started_and_stopped_reads(
    go: int, gaps: list[int]
) -> None:
    running, last = held_and_resumed(go, gaps)
    watch = Stopwatch(elapsed=0)
    for gap in gaps:
        watch.count(gap)
        watch.held = not watch.held
    watch.count(50)
    assert [running.elapsed(moment) for moment in range(go, last + 50)] == watch.readings


@given(st.integers(-(10**9), 10**9), waits, st.integers(-200_000, 900_000), st.integers(0, 10**6))
def test_a_clock_nobody_sets_back_never_runs_backwards(
    go: int, gaps: list[int], after: int, later: int
) -> None:
    running, _ = held_and_resumed(go, gaps)
    at = go + after
    assert 0 <= running.elapsed(at + later) - running.elapsed(at) <= later


@given(st.integers(-(10**9), 10**9), waits, st.integers(0, 10**6), st.integers(-(10**6), 10**6))
def test_the_moment_of_a_reading_is_when_the_clock_reads_it(
    go: int, gaps: list[int], wait: int, shift: int
) -> None:
    running, last = held_and_resumed(go, gaps)
    running = running.shift(last, shift)
    if running.held:
        assert running.moment(0, last) is None
        running = running.resume(last)
    now = last + wait
    ahead = running.elapsed(now) + wait
    moment = running.moment(ahead, now)
    assert moment == now + wait
    assert running.elapsed(moment) == ahead


@given(st.integers(0, 10**6), st.integers(0, 10**6), st.integers(0, 10**6))
def test_an_undone_hold_is_as_if_it_had_never_been(go: int, since: int, length: int) -> None:
    running = RunningTime(go).hold(go).resume(go + 5)
    held = running.hold(go + since)
    assert held.held
    assert held.never_held() == running
    assert held.resume(go + since + length).never_held() == running


def test_while_it_is_held_the_clock_stands() -> None:
    running = RunningTime(10_000).hold(70_000)
    assert running.held
    assert {running.elapsed(at) for at in (70_000, 70_001, 999_999)} == {60_000}
    resumed = running.resume(100_000)
    assert not resumed.held
    assert resumed.elapsed(100_500) == 60_500
    assert resumed.elapsed(85_000) == 60_000, "an entry made in the hold stands at its reading"


def test_a_clock_set_right_by_hand_reads_further_from_then_on() -> None:
    running = RunningTime(0).shift(5_000, 2_000).shift(9_000, -500)
    assert [running.elapsed(at) for at in (4_999, 5_000, 8_999, 9_000)] == [
        4_999,
        7_000,
        10_999,
        10_500,
    ]
