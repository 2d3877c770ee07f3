"""Make the cue sounds: run this script and every .wav beside it is written again, byte for byte.

What a cue sounds like stands in SIGNALS (`classclock/clock/cues.py`). A coach with the back to the
screen tells the cues apart by how many tones there are, how long they last and whether they rise or
fall.

Fundamentals lie between 650 and 1250 Hz, so that their octave, mixed in for a gym's loudspeakers,
stays below 2.5 kHz as well: older ears hear less and less above it (ISO 24500, from memory).
"""

import math
import sys
import wave
from array import array
from pathlib import Path

from classclock.clock.cues import SIGNALS, Tone

RATE = 48_000
PEAK = 0.8  # of full scale, so that two cues may overlap a little without being cut
OCTAVE = 0.35  # how strong the octave is beside the fundamental
RAMP_MS = 8  # a raised-cosine attack and release: a tone that starts at once clicks


def frames_of(tone: Tone) -> int:
    return tone.ms * RATE // 1000


def samples_of(tone: Tone) -> "array[int]":
    """One tone as signed 16-bit samples."""
    count, ramp = frames_of(tone), RAMP_MS * RATE // 1000
    scale = 32_767 * PEAK / (1 + OCTAVE) if tone.hz else 0.0
    samples = array("h")
    for frame in range(count):
        turn = math.tau * tone.hz * frame / RATE
        nearest_edge = min(frame, count - 1 - frame, ramp)
        envelope = (1 - math.cos(math.pi * nearest_edge / ramp)) / 2
        samples.append(
            round(scale * envelope * (math.sin(turn) + OCTAVE * math.sin(2 * turn))),
        )
    return samples


def write(path: Path, tones: tuple[Tone, ...]) -> None:
    samples = array("h")
    for tone in tones:
        samples.extend(samples_of(tone))
    if sys.byteorder == "big":
        samples.byteswap()
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(samples.tobytes())


def make(folder: Path) -> None:
    for kind, signal in SIGNALS.items():
        write(folder / f"{kind}.wav", signal.tones)


if __name__ == "__main__":
    make(Path(__file__).parent)
