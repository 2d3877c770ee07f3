"""Sound through simpleaudio, which opens the device anew for every cue.

Its own build 1.0.4 ends the process with a segmentation fault on Python 3.12 and later; the patched
build has the same import name, so only the installed distributions tell them apart.
"""

import sys
from array import array
from collections.abc import Callable
from importlib import metadata
from typing import Any

from classclock.sound.agenda import Agenda, Due
from classclock.sound.backend import NoSound
from classclock.sound.punctual import Punctual
from classclock.sound.waves import RATE, Waves

_LEAD_NS = (
    8_000_000  # a play call blocks for 2 to 17 ms before it sounds; half of that is in between
)
_CHANNELS, _BYTES = 1, 2


def installed_safely() -> bool:
    """Whether importing and playing can't end this process."""
    return _installed("simpleaudio-patched") or (
        sys.version_info < (3, 12) and _installed("simpleaudio")
    )


class SimpleaudioBackend:
    name = "simpleaudio"

    def __init__(self, agenda: Agenda, waves: Waves, now: Callable[[], int]) -> None:
        """Open it and play a moment of silence. Raises NoSound when that can't be done."""
        if not installed_safely():
            raise NoSound(
                "simpleaudio isn't installed, or only the build that this Python can't run"
            )
        try:
            import simpleaudio  # noqa: PLC0415 - optional, and loads the system's audio library

            self._simpleaudio: Any = simpleaudio
            self._play_samples(array("h", bytes(_BYTES * RATE // 100)))
        except Exception as error:
            raise NoSound(f"simpleaudio: {error}") from error
        self._agenda = agenda
        self._waves = waves
        self._cues = Punctual(
            agenda, now, play=self._play, hush=simpleaudio.stop_all, lead=_LEAD_NS
        )

    def fault(self) -> str | None:
        return self._cues.fault

    def close(self) -> None:
        self._cues.close()

    def _play(self, due: Due) -> None:
        gain = self._agenda.gain
        self._play_samples(array("h", (round(gain * each) for each in self._waves[due.sound])))

    def _play_samples(self, samples: "array[int]") -> None:
        self._simpleaudio.play_buffer(samples, _CHANNELS, _BYTES, RATE)


def _installed(distribution: str) -> bool:
    try:
        metadata.version(distribution)
    except metadata.PackageNotFoundError:
        return False
    return True
