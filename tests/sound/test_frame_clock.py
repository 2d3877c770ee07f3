"""When a block is heard, told from a pretended device whose truth the test knows."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from classclock.sound.frame_clock import FrameClock
from classclock.sound.waves import RATE

PERIOD, BUFFERED, CAPACITY = 960, 960, 3840
PERIOD_NS = PERIOD * 1_000_000_000 // RATE
BUFFERED_NS = BUFFERED * 1_000_000_000 // RATE
SECOND = 1_000_000_000


def errors(clock: FrameClock, true_starts: list[int], late: list[int]) -> list[int]:
    """How far off each block is, when it is asked for this late."""
    return [
        clock.next_block(start - BUFFERED_NS + delay, PERIOD) - start
        for start, delay in zip(true_starts, late, strict=True)
    ]


@given(st.lists(st.integers(0, 15_000_000), min_size=60, max_size=240), st.data())
def test_a_busy_machine_doesn_t_move_the_beeps(late: list[int], data: st.DataObject) -> None:
    # A machine so busy that only one request in ninety comes on time.
    for block in range(0, len(late), 90):
        late[block] = 0
    start = data.draw(st.integers(0, 10**15))
    starts = [start + block * PERIOD_NS for block in range(len(late))]
    assert max(abs(each) for each in errors(FrameClock(BUFFERED, CAPACITY), starts, late)) < 1000


def test_a_sound_server_that_stands_still_at_the_start_doesn_t_make_every_beep_late() -> None:
    # Seen with a null sink: one block at once, then nothing for 0.8 to 1.8 s, then steadily.
    clock = FrameClock(BUFFERED, CAPACITY)
    clock.next_block(0, PERIOD)
    starts = [1_804 * 1_000_000 + block * PERIOD_NS for block in range(50)]
    assert max(map(abs, errors(clock, starts, [0] * 50))) < 1000


def test_a_buffer_filled_at_once_doesn_t_stretch_the_time_between_beeps() -> None:
    clock = FrameClock(BUFFERED, CAPACITY)
    for _ in range(4):
        clock.next_block(0, PERIOD)
    # Four blocks were queued at once; from then on one is asked for whenever one has been heard.
    starts = [clock.next_block(block * PERIOD_NS, PERIOD) for block in range(1, 51)]
    spacing = [later - earlier for earlier, later in pairwise(starts)]
    assert max(abs(each - PERIOD_NS) for each in spacing) < 1000


def test_after_a_suspended_laptop_the_next_beep_is_right() -> None:
    clock = FrameClock(BUFFERED, CAPACITY)
    errors(clock, [block * PERIOD_NS for block in range(50)], [0] * 50)
    starts = [3600 * SECOND + block * PERIOD_NS for block in range(50)]
    assert max(map(abs, errors(clock, starts, [0] * 50))) < 1000


def test_after_a_short_gap_the_beeps_are_right_again_within_two_seconds() -> None:
    clock = FrameClock(BUFFERED, CAPACITY)
    errors(clock, [block * PERIOD_NS for block in range(50)], [0] * 50)
    starts = [50 * PERIOD_NS + 30_000_000 + block * PERIOD_NS for block in range(150)]
    assert max(map(abs, errors(clock, starts, [0] * 150)[102:])) < 1000


def test_a_sound_card_whose_clock_runs_a_little_fast_is_followed() -> None:
    clock = FrameClock(BUFFERED, CAPACITY)
    starts = [block * PERIOD_NS * 9_999 // 10_000 for block in range(5000)]  # 100 ppm, ten minutes
    assert max(map(abs, errors(clock, starts, [0] * 5000)[100:])) < 100_000
