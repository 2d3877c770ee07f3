"""Sound through simpleaudio: streams of silence, into which each cue is written ahead of its time.

simpleaudio has no stream of its own: it opens the device for each buffer that it plays, and that
begins to sound some 2 to 17 ms later, now sooner, now later. But it reads the buffer where it lies,
a tenth of a second before that is heard. So a long one is always playing, and what is written into
it is even to the sample. Nobody can ask how far it has come: where it is told from when it began,
and another begins every minute, between two counts.

Its own build 1.0.4 ends the process with a segmentation fault on Python 3.12 and later; the patched
build has the same import name, so only the installed distributions tell them apart.
"""

import sys
import threading
from array import array
from collections.abc import Callable
from importlib import metadata
from typing import Any

from classclock.sound.agenda import Agenda, Due
from classclock.sound.backends.backend import NoSound
from classclock.sound.backends.punctual import Punctual
from classclock.sound.waves import RATE, Waves

_NS = 1_000_000_000
_LENGTH_S = 120
_USED_S = 60
"""A card's clock may run 0.01 % off ours: 6 ms in this time, and then another stream begins."""
_WAKING_S = 2
"""So long the first one is used: a device that was asleep begins late, or with a leap."""
_GAP_NS = 1_500_000_000
"""Cues further apart than this belong to two counts: nobody hears whether they are even."""
_LEAD_NS = 300_000_000
"""So long before it is due a cue is written: when it was handed over, at the latest."""
_READ_NS = 120_000_000
"""So far ahead simpleaudio may have read: what is written there now is never heard."""
_STOPS_IN_MS = 300
"""Two buffers of a tenth of a second, and some patience."""
_FADE = RATE * 5 // 1000  # frames: what is cut off is faded out, as a sudden stop clicks
_CHANNELS, _BYTES = 1, 2


def installed_safely() -> bool:
    """Whether importing and playing can't end this process."""
    return _installed("simpleaudio-patched") or (
        sys.version_info < (3, 12) and _installed("simpleaudio")
    )


class SimpleaudioBackend:
    name = "simpleaudio"

    def __init__(self, agenda: Agenda, waves: Waves, now: Callable[[], int]) -> None:
        """Open the first stream. Raises NoSound when that can't be done."""
        if not installed_safely():
            raise NoSound(
                "simpleaudio isn't installed, or only the build that this Python can't run"
            )
        try:
            import simpleaudio  # noqa: PLC0415 - optional, and loads the system's audio library

            self._simpleaudio: Any = simpleaudio
            self._stream = _Stream(simpleaudio, now)
        except Exception as error:
            raise NoSound(f"simpleaudio: {error}") from error
        self._agenda = agenda
        self._waves = waves
        self._now = now
        self._latest = 0
        """When the latest cue was due."""
        self._used = _WAKING_S
        """Seconds for which the stream is used, if there is a gap then."""
        self._cues = Punctual(
            agenda,
            now,
            play=self._play,
            hush=lambda: self._stream.hush(now()),
            idle=self._look_after,
            lead=_LEAD_NS,
        )

    def fault(self) -> str | None:
        if self._stream.broke_off(self._now()):
            return "the device has stopped"
        return self._cues.fault

    def close(self) -> None:
        self._cues.close()
        self._stream.stop()

    def _play(self, due: Due) -> None:
        samples = self._waves[due.sound]
        if self._stream.left(due.at) * RATE < len(samples):
            self._change()
        self._stream.write(samples, self._agenda.gain, due.at, self._now())
        self._latest = due.at

    def _look_after(self) -> None:
        now = self._now()
        if now - self._latest > _GAP_NS and self._stream.left(now) < _LENGTH_S - self._used:
            self._change()

    def _change(self) -> None:
        """Begin another stream before the old one ends, or the device would fall asleep."""
        try:
            stream = _Stream(self._simpleaudio, self._now)
        except Exception:  # noqa: BLE001  it says nothing more exact: some take one stream only
            self._stream.stop()
            self._stream.wait()
            stream = _Stream(self._simpleaudio, self._now)
        self._stream.stop()
        self._stream, self._used = stream, _USED_S


class _Stream:
    """Sound that plays, silent where nothing is written."""

    def __init__(self, simpleaudio: Any, now: Callable[[], int]) -> None:
        self._samples = array("h", bytes(_BYTES * RATE * _LENGTH_S))
        self._playing = simpleaudio.play_buffer(self._samples, _CHANNELS, _BYTES, RATE)
        self._begun = now()

    def left(self, at: int) -> float:
        """How many seconds of it are still to come at that moment (raw ns)."""
        return _LENGTH_S - (at - self._begun) / _NS

    def write(self, samples: "array[int]", gain: float, at: int, now: int) -> None:
        """Add this at its moment, or as soon as it is still heard."""
        first = max(self._frame(at), self._frame(now + _READ_NS))
        for frame, sample in enumerate(samples[: len(self._samples) - first], first):
            level = self._samples[frame] + round(gain * sample)
            self._samples[frame] = max(-32_768, min(32_767, level))

    def hush(self, now: int) -> None:
        """Fall silent as soon as that is still heard."""
        first = self._frame(now + _READ_NS)
        fade = [
            round(sample * (1 - step / _FADE))
            for step, sample in enumerate(self._samples[first : first + _FADE])
        ]
        silence = bytes(_BYTES * max(0, len(self._samples) - first - len(fade)))
        # In place: this is being read, and so can't be made longer or shorter.
        self._samples[first:] = array("h", fade) + array("h", silence)

    def broke_off(self, now: int) -> bool:
        """Whether it plays no longer though there is some left."""
        return self.left(now) > 1 and not self._playing.is_playing()

    def stop(self) -> None:
        """End it, once what has been read is played."""
        self._playing.stop()

    def wait(self) -> None:
        """Wait until it has ended, but not for a device that hangs."""
        pause = threading.Event()
        for _ in range(_STOPS_IN_MS // 10):
            if not self._playing.is_playing():
                return
            pause.wait(0.01)

    def _frame(self, at: int) -> int:
        return min(max(0, (at - self._begun) * RATE // _NS), len(self._samples))


def _installed(distribution: str) -> bool:
    try:
        metadata.version(distribution)
    except metadata.PackageNotFoundError:
        return False
    return True
