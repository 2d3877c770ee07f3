"""The emergency card: who to call, from where, and where the help is. Taps go through under it."""

from dataclasses import dataclass

from textual.message import Message

from classclock.plan.club import Emergency
from classclock.screens.drawing.cells import Drawing, above
from classclock.screens.emergency_content import card_lines, note_line
from classclock.screens.entry import Entry
from classclock.screens.look import Look
from classclock.screens.stack import stack


class EmergencyCard(Entry):
    """Enter opens a line for who, when and what was done; until then it takes no other key."""

    @dataclass
    class Noted(Message):
        """A line for the journal, never for the wall."""

        text: str

    def __init__(self, look: Look, *, mirrored: bool = True, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.mirrored = mirrored
        self.card = Emergency()
        self.writing = False
        self.noted = 0

    @property
    def takes_keys(self) -> bool:
        return self.writing

    def show(self, card: Emergency) -> None:
        self.card = card
        self.noted = 0
        self.display = True
        self.repaint()

    def offer(self, sign: str) -> bool:
        """Whether this sign was the card's own: enter opens its line, escape closes it."""
        if not self.display or sign not in ("<enter>", "<escape>"):
            return False
        if sign == "<enter>":
            self.writing = True
            self.focus()
            self.repaint()
        else:
            self.display = False
        return True

    def entered(self) -> None:
        if text := self.text.strip():
            self.noted += 1
            self.post_message(self.Noted(text))
        self.left()

    def left(self) -> None:
        self.text = ""
        self.writing = False
        self.blur()

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        here = self.look.on(theme.alarm_ground, theme.alarm_ink)
        inner = columns - 4
        card = stack(card_lines(self.card), inner, rows - 4, here)
        note = note_line(self.text, writing=self.writing, noted=self.noted, mirrored=self.mirrored)
        line = here.text(note[-inner:] if self.writing else note, inner, bold=True)
        drawn = above(here.gap(inner), card, here.gap(inner), line)
        return here.box(drawn, columns, rows, across="middle")
