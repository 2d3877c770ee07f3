import datetime as dt
import math
import struct
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from textual import events

from classclock.clock.source import (
    NEVER,
    MachineSource,
    TimeSource,
    WoundSource,
    raw_now,
)

SECOND = 1_000_000_000

SOURCES: dict[str, Callable[[], TimeSource]] = {
    "the machine's": MachineSource,
    "wound by hand": lambda: WoundSource(start=5 * SECOND),
    "at its own speed": lambda: WoundSource(1),
    "sixty times as fast": lambda: WoundSource(60, start=7),
    "half as fast": lambda: WoundSource(0.5),
}


@pytest.fixture(params=SOURCES)
def source(request: pytest.FixtureRequest) -> TimeSource:
    return SOURCES[request.param]()


@pytest.mark.parametrize("rate", [1, 7])
def test_two_that_began_at_one_raw_reading_always_agree(rate: int) -> None:
    since = raw_now() - 90 * SECOND
    wall = dt.datetime(2026, 11, 24, 18, 30, tzinfo=dt.UTC)
    one, other = (WoundSource(rate, start=3, since=since, wall=wall) for _ in range(2))
    before, between, after = one.now(), other.now(), one.now()
    assert before <= between <= after
    assert before >= 90 * SECOND * rate
    assert one.raw(3) == since
    passed = one.wall() - wall
    assert dt.timedelta(seconds=90 * rate) <= passed < dt.timedelta(seconds=100 * rate)


def test_time_never_runs_backwards(source: TimeSource) -> None:
    readings = [source.now() for _ in range(1000)]
    assert readings == sorted(readings)
    assert all(isinstance(reading, int) for reading in readings)


def test_a_reading_that_has_come_is_not_waited_for(source: TimeSource) -> None:
    assert source.real_seconds(source.now()) == 0
    assert source.real_seconds(source.now() - SECOND) == 0


def test_a_later_reading_takes_longer_to_come(source: TimeSource) -> None:
    now = source.now()
    near, far = source.real_seconds(now + 600 * SECOND), source.real_seconds(now + 1200 * SECOND)
    assert 0 < near <= far
    assert near < far or far == math.inf


def test_the_raw_clock_reads_a_past_reading_in_the_past(source: TimeSource) -> None:
    now = source.now()
    assert source.raw(now) <= raw_now()
    assert raw_now() < source.raw(now + 600 * SECOND) <= NEVER


def test_the_wait_and_the_raw_clock_agree(source: TimeSource) -> None:
    until = source.now() + 600 * SECOND
    before = raw_now()
    wait = source.real_seconds(until)
    after = raw_now()
    if wait == math.inf:
        assert source.raw(until) == NEVER
    else:
        assert before - 1000 <= source.raw(until) - wait * SECOND <= after + 1000


def test_a_key_is_as_old_as_its_stamp_and_never_of_the_future(source: TimeSource) -> None:
    stamp = events.Key("n", "n").time
    raw = raw_now()
    assert source.age(stamp + 60) == 0
    assert source.age(stamp) <= (raw_now() - raw + SECOND) * 60


def test_a_keystroke_comes_after_the_one_before(source: TimeSource) -> None:
    stamp = events.Key("n", "n").time
    assert source.stroke_ms(stamp - 2) <= source.stroke_ms(stamp)
    assert isinstance(source.stroke_ms(stamp), int), "whole milliseconds"


def test_what_never_comes_can_be_handed_to_the_player_and_is_later_than_anybody_waits() -> None:
    assert struct.unpack("q", struct.pack("q", NEVER)) == (NEVER,)
    century = 100 * 366 * 24 * 3600 * SECOND
    assert raw_now() + century < NEVER


def test_the_time_of_day_bears_its_offset(source: TimeSource) -> None:
    wall = source.wall()
    assert wall.utcoffset() is not None
    assert abs(wall - dt.datetime.fromtimestamp(time.time_ns() / SECOND, dt.UTC)) < dt.timedelta(
        minutes=5
    )


def test_the_machine_source_agrees_with_the_systems_clock() -> None:
    """Python's own monotonic clock over a tenth of a second, read before and after."""
    source = MachineSource()

    def bracket() -> tuple[int, int, int]:
        python_s = time.monotonic_ns  # noqa: TID251  the clock beside ours
        return python_s(), source.now(), python_s()

    first = bracket()
    threading.Event().wait(0.1)
    second = bracket()
    assert second[0] - first[2] <= second[1] - first[1] <= second[2] - first[0]


@pytest.mark.skipif(sys.platform != "linux", reason="/proc is Linux's")
def test_the_machine_source_counts_from_the_machines_start_suspended_time_too() -> None:
    """The first number in /proc/uptime counts suspended time, in hundredths (proc_uptime(5))."""
    source = MachineSource()
    before = source.now()
    uptime = float(Path("/proc/uptime").read_text(encoding="ascii").split()[0])
    assert before / SECOND - 0.01 <= uptime <= source.now() / SECOND


def test_a_key_handled_late_happened_when_it_arrived() -> None:
    stamp = events.Key("n", "n").time - 0.3
    assert 0.3 <= MachineSource().age(stamp) / SECOND < 5
    assert 3 <= WoundSource(10).age(stamp) / SECOND < 50, "ten times as fast it is ten times as old"
    assert WoundSource().age(stamp) == 0


def test_the_guard_against_repeated_keys_runs_in_real_time_at_any_speed() -> None:
    stamp = events.Key("n", "n").time
    for source in (MachineSource(), WoundSource(30)):
        assert source.stroke_ms(stamp) - source.stroke_ms(stamp - 1.2) == pytest.approx(
            1200, abs=99
        )


def test_a_source_wound_by_hand_stands_still_until_it_is_wound() -> None:
    source = WoundSource(start=100)
    rung: list[int] = []
    source.on_jump = lambda: rung.append(source.now())
    assert {source.now() for _ in range(100)} == {100}
    source.jump(3 * SECOND)
    assert source.now() == 3 * SECOND + 100
    assert rung == [source.now()]
    assert source.stroke_ms(0.0) == 3000
    with pytest.raises(ValueError, match="back"):
        source.jump(-1)


def test_time_runs_as_many_times_as_fast_as_it_is_told() -> None:
    source = WoundSource(7, start=50)
    before, reading, after = raw_now(), source.now(), raw_now()
    threading.Event().wait(0.05)
    later_before, later, later_after = raw_now(), source.now(), raw_now()
    assert 7 * (later_before - after) - 7 <= later - reading <= 7 * (later_after - before) + 7


def test_time_that_runs_backwards_is_refused() -> None:
    with pytest.raises(ValueError, match="0 or more"):
        WoundSource(-1)


def test_the_time_of_day_moves_with_the_source_and_can_be_set() -> None:
    source = WoundSource(wall=dt.datetime(2026, 3, 3, 17, 59, tzinfo=dt.UTC))
    source.jump(90 * SECOND)
    assert source.wall() == dt.datetime(2026, 3, 3, 18, 0, 30, tzinfo=dt.UTC)
    reading = source.now()
    source.set_wall(dt.datetime(2026, 3, 3, 19, 0, tzinfo=dt.UTC))
    assert source.now() == reading, "a step of the wall clock is no step of time"
    source.jump(SECOND)
    assert source.wall() == dt.datetime(2026, 3, 3, 19, 0, 1, tzinfo=dt.UTC)


def test_the_time_of_day_is_never_ahead_of_the_source_not_by_a_microsecond() -> None:
    wall = dt.datetime(2026, 3, 3, 17, 59, tzinfo=dt.UTC)
    source = WoundSource(wall=wall)
    source.jump(1_999)
    assert source.wall() == wall + dt.timedelta(microseconds=1)
    source.jump(1)
    assert source.wall() == wall + dt.timedelta(microseconds=2)
