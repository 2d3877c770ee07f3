"""The sound files, measured: what they are against what the table of cues says they are."""

import itertools
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
import pytest
from scipy.io import wavfile
from scipy.signal import find_peaks

from classclock.clock.cues import SIGNALS, CueKind
from classclock.machine.bundled import bundled
from classclock.sound.messages import KINDS

OLDER_EARS_HZ = 2500  # beeps at or below 2.5 kHz: ISO 24500 (2010), from memory
FULL_SCALE = 32_767

every_kind = pytest.mark.parametrize("kind", KINDS)
Samples = np.ndarray[Any, np.dtype[Any]]


def heard(kind: str) -> Samples:
    rate, samples = wavfile.read(bundled("sounds") / f"{kind}.wav")
    assert rate == 48_000
    assert samples.ndim == 1
    assert samples.dtype == np.int16
    return np.asarray(samples, dtype=np.float64)


def spectrum(samples: Samples) -> tuple[Samples, Samples]:
    """Frequencies in hertz, half a hertz or less apart, and how strong each is."""
    size = max(96_000, len(samples))
    strength = np.abs(np.fft.rfft(samples * np.hanning(len(samples)), size))
    return np.fft.rfftfreq(size, 1 / 48_000), strength


def tones_measured(samples: Samples) -> list[tuple[float, float]]:
    """The tones told apart by ear alone: (hertz, ms), pauses as 0 Hz, from 5 ms windows."""
    step = 240
    pitches = []
    for start in range(0, len(samples) - step + 1, step):
        window = samples[start : start + step]
        loud = np.max(np.abs(window)) > 0.02 * FULL_SCALE
        hertz, strength = spectrum(window)
        pitches.append(float(hertz[np.argmax(strength)]) if loud else 0.0)
    tones: list[tuple[float, float]] = []
    for pitch, run in itertools.groupby(pitches, key=lambda pitch: round(pitch / 60)):
        tones.append((pitch * 60.0, 5.0 * len(list(run))))
    return [tone for tone in tones if tone[1] >= 40]


def test_every_cue_has_its_sound_and_no_sound_is_left_over() -> None:
    assert set(SIGNALS) == set(KINDS)
    assert {path.stem for path in bundled("sounds").glob("*.wav")} == set(KINDS)


@every_kind
def test_a_sound_is_as_long_as_the_table_says_and_short_enough(kind: CueKind) -> None:
    milliseconds = len(heard(kind)) * 1000 / 48_000
    assert milliseconds == sum(tone.ms for tone in SIGNALS[kind].tones)
    assert milliseconds <= 1500


@every_kind
def test_each_tone_has_the_pitch_that_the_table_says(kind: CueKind) -> None:
    samples, start = heard(kind), 0
    for tone in SIGNALS[kind].tones:
        end = start + tone.ms * 48
        part, start = samples[start:end], end
        if not tone.hz:
            assert not part.any()
            continue
        hertz, strength = spectrum(part)
        assert hertz[np.argmax(strength)] == pytest.approx(tone.hz, abs=1.5)


@every_kind
def test_older_ears_hear_every_part_of_it(kind: str) -> None:
    hertz, strength = spectrum(heard(kind))
    peaks, _ = find_peaks(strength, height=strength.max() / 30)
    assert len(peaks)
    assert hertz[peaks].max() <= OLDER_EARS_HZ
    low = strength[(hertz >= 600) & (hertz <= 2000)]
    assert np.sum(low**2) > 0.75 * np.sum(strength**2)


@every_kind
def test_it_neither_clicks_nor_is_cut_off(kind: str) -> None:
    samples = heard(kind)
    assert abs(samples[0]) <= 4
    assert abs(samples[-1]) <= 4
    # The steepest a tone and its octave below 2.5 kHz may rise from one sample to the next.
    assert np.abs(np.diff(samples)).max() <= FULL_SCALE * 2 * np.pi * OLDER_EARS_HZ / 48_000
    # The first millisecond rises slowly: a raised-cosine ramp, common practice, no source.
    assert np.abs(samples[:48]).max() < 0.06 * FULL_SCALE
    assert 0.5 * FULL_SCALE < np.abs(samples).max() < 0.9 * FULL_SCALE


def test_no_two_cues_can_be_taken_for_each_other_with_the_back_to_the_screen() -> None:
    tunes = {kind: tones_measured(heard(kind)) for kind in KINDS}
    for one, other in itertools.combinations(KINDS, 2):
        lengths = sorted(sum(ms for _, ms in tunes[each]) for each in (one, other))
        pitches = [[round(hertz) for hertz, _ in tunes[each] if hertz] for each in (one, other)]
        as_many = len(pitches[0]) == len(pitches[1])
        assert (
            not as_many or lengths[1] > 1.4 * lengths[0] or shape(pitches[0]) != shape(pitches[1])
        ), (one, other)


def shape(pitches: list[int]) -> list[int]:
    """Whether each step of a tune rises, falls or stays."""
    return [(later > earlier) - (later < earlier) for earlier, later in itertools.pairwise(pitches)]


def test_making_them_again_gives_the_same_files(make_sounds: ModuleType, tmp_path: Path) -> None:
    make_sounds.make(tmp_path)
    for kind in KINDS:
        made, kept = tmp_path / f"{kind}.wav", bundled("sounds") / f"{kind}.wav"
        assert made.read_bytes() == kept.read_bytes(), kind
