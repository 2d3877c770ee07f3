"""No sound: cues leave the agenda when due, late ones are reported, and nothing is heard."""

from collections.abc import Callable

from classclock.sound.agenda import Agenda
from classclock.sound.backends.punctual import Punctual
from classclock.sound.messages import SILENT


class SilentBackend:
    name = SILENT

    def __init__(self, agenda: Agenda, now: Callable[[], int]) -> None:
        self._cues = Punctual(agenda, now, play=lambda _due: None, hush=lambda: None)

    def fault(self) -> str | None:
        return self._cues.fault

    def close(self) -> None:
        self._cues.close()
