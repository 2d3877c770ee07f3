"""A stream of sound, block by block, each cue begun at the very frame at which it is due."""

from array import array

from msgspec import Struct

from classclock.sound.agenda import Agenda
from classclock.sound.waves import RATE, Waves

_FADE = RATE * 5 // 1000  # frames: what is cut off is faded out, as a sudden stop clicks
_NS = 1_000_000_000


class _Voice(Struct):
    samples: "array[int]"
    begins: int
    """In frames from the start of the next block; negative once it sounds."""


class Mixer:
    """Turns the agenda into blocks of signed 16-bit samples, one channel at RATE."""

    def __init__(self, agenda: Agenda, waves: Waves) -> None:
        self._agenda = agenda
        self._waves = waves
        self._voices: list[_Voice] = []
        self._cancels = agenda.cancels

    def block(self, start: int, frames: int) -> bytes:
        """Give the next `frames` frames, the first of which is heard at `start` (raw ns).

        What is due earlier begins with the block, unless it is over a second late.
        """
        if self._cancels != self._agenda.cancels:
            self._cancels = self._agenda.cancels
            for voice in self._voices:
                voice.samples = _faded(voice.samples, -voice.begins)
        for due in self._agenda.take(start + frames * _NS // RATE, start):
            begins = max(0, (due.at - start) * RATE // _NS)
            self._voices.append(_Voice(self._waves[due.sound], begins))
        if not self._voices:
            return bytes(2 * frames)
        return self._mixed(frames)

    def _mixed(self, frames: int) -> bytes:
        mix, gain = [0.0] * frames, self._agenda.gain
        for voice in self._voices:
            first = max(0, voice.begins)
            heard = voice.samples[first - voice.begins : frames - voice.begins]
            for frame, sample in enumerate(heard, first):
                mix[frame] += gain * sample
            voice.begins -= frames
        self._voices = [voice for voice in self._voices if len(voice.samples) > -voice.begins]
        return array("h", (max(-32_768, min(32_767, round(level))) for level in mix)).tobytes()


def _faded(samples: "array[int]", sounded: int) -> "array[int]":
    """Keep what has sounded and a short fade after it."""
    tail = samples[sounded : sounded + _FADE]
    fade = (round(sample * (1 - step / _FADE)) for step, sample in enumerate(tail))
    return samples[:sounded] + array("h", fade)
