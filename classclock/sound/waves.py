"""The cue sounds, read into memory once so that no disk can delay a beep."""

import sys
import wave
from array import array
from collections.abc import Mapping
from pathlib import Path

from classclock.clock.cues import CueKind
from classclock.sound.messages import KINDS

RATE = 48_000

Waves = Mapping[CueKind, "array[int]"]
"""For each cue its samples: signed 16-bit, one channel, at RATE."""


def read_waves(folder: Path) -> Waves:
    """Read every cue's sound. Raises ValueError, naming the file, for one that can't be used."""
    return {kind: _read(folder / f"{kind}.wav") for kind in KINDS}


def _read(path: Path) -> "array[int]":
    try:
        with wave.open(str(path), "rb") as file:
            shape = (file.getnchannels(), file.getsampwidth(), file.getframerate())
            samples = array("h", file.readframes(file.getnframes()))
    except (OSError, EOFError, wave.Error) as error:
        raise ValueError(f"the sound {path.name} can't be read: {error}") from error
    if shape != (1, 2, RATE):
        raise ValueError(f"the sound {path.name} must be one channel of 16 bits at {RATE} Hz")
    if sys.byteorder == "big":
        samples.byteswap()
    return samples
