"""A line at the foot of a class that closes by itself: while a piece runs, taps are off in it."""

from textual.timer import Timer

from classclock.screens.controls.line_entry import LineEntry
from classclock.screens.live.overlays.asked_box import AtTheFoot

PATIENCE = 10.0
"""Seconds without a key after which it closes while a piece runs."""


class PatientEntry(LineEntry, AtTheFoot):
    """Has the focus while it is open. During a running piece it says that taps are off."""

    running = False
    waiting: Timer | None = None

    def open_while(self, *, running: bool) -> None:
        self.running = running
        self.display = True
        self.focus()
        self.typed()
        self.repaint()

    def close(self) -> None:
        self._stop_waiting()
        self.display = False

    def typed(self) -> None:
        self._stop_waiting()
        if self.running and self.display:
            self.waiting = self.set_timer(PATIENCE, self.close)

    def _stop_waiting(self) -> None:
        if self.waiting is not None:
            self.waiting.stop()
            self.waiting = None
