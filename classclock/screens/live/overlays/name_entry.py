"""A line for the name of someone who came late, or of a visitor."""

from dataclasses import dataclass

from textual.timer import Timer

from classclock.screens.canvas.cells import Drawing
from classclock.screens.controls.line_entry import LineEntry
from classclock.screens.controls.meant import Meant
from classclock.screens.live.overlays.asked_box import AtTheFoot, BoxQuestion, draw_asked

PATIENCE = 10.0
"""Seconds without a key after which it closes while a piece runs: taps are off meanwhile."""


class NameEntry(LineEntry, AtTheFoot):
    """Has the focus while it is open. During a running piece it says that taps are off."""

    running = False
    visitor = ""
    """One who has no name yet."""
    waiting: Timer | None = None

    @dataclass
    class Named(Meant):
        name: str

    def ask(self, *, running: bool, visitor: str = "") -> None:
        """`visitor` is what one is called who has no name yet."""
        self.running, self.visitor = running, visitor
        self.text = ""
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

    def entered(self) -> None:
        if name := " ".join(self.text.split()):
            self.post_message(self.Named(name))
            self.close()

    def left(self) -> None:
        self.close()

    def paint(self, columns: int, rows: int) -> Drawing:
        question, foot = "who came late?", "enter adds, escape leaves, ? is a visitor"
        if self.visitor:
            question = f"who came late, or {self.visitor} = Anna?"
        if self.running:
            question = f"typing a name: taps are off. {question[0].upper()}{question[1:]}"
            foot = "enter adds, escape leaves; 10 s without a key closes it"
        return draw_asked(BoxQuestion(question, self.text, foot), columns, rows, self.look)

    def _stop_waiting(self) -> None:
        if self.waiting is not None:
            self.waiting.stop()
            self.waiting = None
