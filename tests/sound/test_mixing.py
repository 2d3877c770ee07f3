"""Cues placed into blocks of sound, against the same sums done by numpy in one go."""

from array import array

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from classclock.clock.cues import CueKind
from classclock.sound.agenda import TOO_LATE_NS, Agenda, Due
from classclock.sound.mixing import Mixer
from classclock.sound.waves import RATE, Waves

FRAME_NS = 1_000_000_000 // RATE
BEEP: Waves = {"short": array("h", range(1000, 1100)), "go": array("h", range(2000, 2300))}

BEEPS: tuple[CueKind, ...] = tuple(BEEP)

skipped: list[str] = []


def heard(mixer: Mixer, start: int, sizes: list[int]) -> list[int]:
    samples = array("h")
    for size in sizes:
        samples.frombytes(mixer.block(start + len(samples) * 1_000_000_000 // RATE, size))
    return samples.tolist()


@given(
    dues=st.lists(st.tuples(st.integers(0, 2000), st.sampled_from(BEEPS)), max_size=4),
    sizes=st.lists(st.integers(1, 700), min_size=1, max_size=12),
)
def test_each_cue_begins_at_its_frame_however_the_blocks_are_cut(
    dues: list[tuple[int, CueKind]], sizes: list[int]
) -> None:
    agenda = Agenda(skipped.append)
    expected = np.zeros(sum(sizes) + 5000, dtype=np.int64)
    for place, (frame, sound) in enumerate(dues):
        # In the middle of the frame, so that rounding can't decide.
        agenda.add(Due(frame * 1_000_000_000 // RATE + FRAME_NS // 2, str(place), sound))
        expected[frame : frame + len(BEEP[sound])] += BEEP[sound].tolist()
    assert (
        heard(Mixer(agenda, BEEP), 0, sizes) == expected[: sum(sizes)].clip(-32768, 32767).tolist()
    )


def test_a_cue_that_is_a_little_late_is_heard_at_once() -> None:
    agenda = Agenda(skipped.append)
    agenda.add(Due(0, "late", "short"))
    assert heard(Mixer(agenda, BEEP), TOO_LATE_NS, [200])[:3] == [1000, 1001, 1002]


def test_a_cue_over_a_second_late_is_left_out_and_reported() -> None:
    late: list[str] = []
    agenda = Agenda(late.append)
    agenda.add(Due(0, "a", "short"))
    assert not any(heard(Mixer(agenda, BEEP), TOO_LATE_NS + 1, [200]))
    assert late == ["a"]


def test_a_cue_handed_over_again_is_moved_not_doubled() -> None:
    agenda = Agenda(skipped.append)
    agenda.add(Due(0, "a", "short"))
    agenda.add(Due(5 * 1_000_000_000, "a", "short"))
    assert not any(heard(Mixer(agenda, BEEP), 0, [2000]))


def test_holding_the_clock_fades_what_sounds_and_drops_what_is_ahead() -> None:
    steady: Waves = {"end": array("h", [10_000] * RATE), "go": array("h", [9_000] * 100)}
    agenda = Agenda(skipped.append)
    agenda.add(Due(0, "a", "end"))
    agenda.add(Due(20_000_000, "b", "go"))
    mixer = Mixer(agenda, steady)
    assert heard(mixer, 0, [480]) == [10_000] * 480
    agenda.cancel()
    after = heard(mixer, 10_000_000, [480, 4800])
    assert after[240:] == [0] * (len(after) - 240)
    falls = np.diff(after[:241])
    assert after[0] == 10_000
    assert falls.max() <= 0
    assert falls.min() >= -100


def test_the_volume_counts_from_the_next_block_and_mute_is_silence() -> None:
    agenda = Agenda(skipped.append)
    agenda.add(Due(0, "a", "go"))
    mixer = Mixer(agenda, {"go": array("h", [8_000] * 3000)})
    levels = []
    for volume, muted in ((100, False), (50, False), (0, False), (100, True), (100, False)):
        agenda.volume, agenda.muted = volume, muted
        levels.append(heard(mixer, 0, [100])[0])
    assert levels == [8_000, 2_000, 0, 0, 8_000]
