"""A thread that plays each cue just in time, for ways of sounding that have no stream."""

import threading
from collections.abc import Callable

from classclock.sound.agenda import Agenda, Due


class Punctual:
    """Calls `play` for every cue, `lead` ns before it is due, and `hush` when all is cancelled.

    Calls `idle` after that, and once a second when there is nothing to do. The first error ends it,
    and is its `fault` from then on.
    """

    def __init__(
        self,
        agenda: Agenda,
        now: Callable[[], int],
        *,
        play: Callable[[Due], None],
        hush: Callable[[], None],
        idle: Callable[[], None] = lambda: None,
        lead: int = 0,
    ) -> None:
        self._agenda = agenda
        self._now = now
        self._play = play
        self._hush = hush
        self._idle = idle
        self._lead = lead
        self._closed = False
        self.fault: str | None = None
        threading.Thread(target=self._run, name="cues", daemon=True).start()

    def close(self) -> None:
        self._closed = True

    def _run(self) -> None:
        cancels = self._agenda.cancels
        while not self._closed:
            self._agenda.wait(self._now, self._lead)
            if self._closed:
                return
            try:
                if cancels != self._agenda.cancels:
                    cancels = self._agenda.cancels
                    self._hush()
                now = self._now()
                for due in self._agenda.take(now + self._lead + 1, now):
                    self._play(due)
                self._idle()
            except Exception as error:  # noqa: BLE001 - whatever an audio library raises
                self.fault = str(error) or type(error).__name__
                return
