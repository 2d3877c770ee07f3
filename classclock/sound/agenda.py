"""What is to be heard, when, and how loud; shared by the player's threads."""

import threading
from collections.abc import Callable

from msgspec import Struct

from classclock.clock.cues import CueKind

TOO_LATE_NS = 1_000_000_000
"""A cue later than this is left out: a beep a second late counts in the wrong second."""


class Due(Struct, frozen=True):
    at: int
    """Nanoseconds of the raw clock."""
    id: str
    sound: CueKind


class Agenda:
    """Sounds not yet begun, the earliest first. Every method may be called from any thread."""

    def __init__(self, skipped: Callable[[str], None]) -> None:
        self._skipped = skipped
        self._changed = threading.Condition()
        self._due: list[Due] = []
        self.volume = 100
        self.muted = False
        self.cancels = 0
        """How often all was cancelled: who sounds something compares it, and falls silent."""

    @property
    def gain(self) -> float:
        """How strong samples are to be, 0 to 1; squared, as ears hear half an amplitude as more."""
        return 0.0 if self.muted else (self.volume / 100) ** 2

    def add(self, due: Due) -> None:
        with self._changed:
            others = (other for other in self._due if other.id != due.id)
            self._due = sorted((*others, due), key=lambda each: each.at)
            self._changed.notify_all()

    def cancel(self) -> None:
        with self._changed:
            self._due.clear()
            self.cancels += 1
            self._changed.notify_all()

    def take(self, until: int, now: int) -> list[Due]:
        """Take out what is due before `until`; what is over a second late at `now` is reported."""
        with self._changed:
            taken = [due for due in self._due if due.at < until]
            self._due = self._due[len(taken) :]
        for due in taken:
            if now - due.at > TOO_LATE_NS:
                self._skipped(due.id)
        return [due for due in taken if now - due.at <= TOO_LATE_NS]

    def wait(self, now: Callable[[], int], lead: int) -> None:
        """Wait until something is due within `lead`, or changed; a second at most.

        A second, because a suspended laptop's timers stand still while the raw clock goes on.
        """
        with self._changed:
            left = self._due[0].at - lead - now() if self._due else TOO_LATE_NS
            if left > 0:
                self._changed.wait(min(left, TOO_LATE_NS) / 1_000_000_000)
