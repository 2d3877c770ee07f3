"""Finds a way for the cues to be heard, and another when it is lost."""

from collections.abc import Callable

from classclock.sound.agenda import Agenda
from classclock.sound.backends import miniaudio_backend, simpleaudio_backend
from classclock.sound.backends.backend import Backend, NoSound
from classclock.sound.backends.miniaudio_backend import MiniaudioBackend
from classclock.sound.backends.silent_backend import SilentBackend
from classclock.sound.backends.simpleaudio_backend import SimpleaudioBackend
from classclock.sound.messages import Ready, SoundNotice, SoundStatus
from classclock.sound.waves import Waves

Say = Callable[[SoundStatus], None]

WAYS: dict[str, Callable[[Agenda, Waves, Callable[[], int]], Backend]] = {
    "simpleaudio": SimpleaudioBackend,
    "miniaudio": MiniaudioBackend,
    "silent": lambda agenda, _waves, now: SilentBackend(agenda, now),
}
_RETRY = 6  # every how many tends a silent machine is tried again: about three seconds
NO_SOUND = "plug a loudspeaker in or choose the TV, then F3: no sound here"
NO_PLAYER = "watch for the cues: nothing that plays sound is installed here"
LOST = "look at the loudspeaker and its cable: the sound is gone"
BACK = "the sound is back: F3 checks it before the next start"
SILENCED = "no sound, as CLASSCLOCK_SOUND says silent"


class Output:
    """What the cues are heard through at present. `tend` it about twice a second."""

    def __init__(
        self, agenda: Agenda, waves: Waves, now: Callable[[], int], say: Say, wish: str = ""
    ) -> None:
        """Take `wish`, one of WAYS, or whichever works. Raises ValueError for another wish."""
        if wish and wish not in WAYS:
            raise ValueError(
                f"CLASSCLOCK_SOUND is {wish!r}: set it to {', '.join(WAYS)} or nothing"
            )
        self._agenda = agenda
        self._waves = waves
        self._now = now
        self._say = say
        installed = {
            "simpleaudio": simpleaudio_backend.installed_safely,
            "miniaudio": miniaudio_backend.installed,
        }
        self._ways = [wish] if wish else [way for way, there in installed.items() if there()]
        self._backend: Backend | None = None
        self._missing = False
        self._since_try = 0

    def tend(self) -> None:
        """Open what isn't open, notice what is lost, and try again what had failed."""
        if self._backend is None:
            self._try()
            if self._backend is None:
                self._miss(NO_SOUND if self._ways else NO_PLAYER)
        elif self._backend.fault() is not None:
            self._miss(LOST)
        elif self._missing:
            self._since_try += 1
            if self._since_try >= _RETRY:
                self._since_try = 0
                self._try()

    def _try(self) -> None:
        for way in self._ways:
            try:
                self._change(WAYS[way](self._agenda, self._waves, self._now))
            except NoSound:
                continue
            if way == "silent":
                self._say(SoundNotice(SILENCED))
            elif self._missing:
                self._say(SoundNotice(BACK))
            self._missing = False
            return

    def _miss(self, notice: str) -> None:
        self._change(SilentBackend(self._agenda, self._now))
        self._say(SoundNotice(notice, lasts=True))
        self._missing = True

    def _change(self, backend: Backend) -> None:
        if self._backend is not None:
            self._backend.close()
        self._backend = backend
        self._say(Ready(backend.name))
