"""The emergency card: who to call, from where, and where the help is. Taps go through under it."""

from dataclasses import dataclass

from textual.message import Message

from classclock.plan.club import Emergency
from classclock.screens.drawing.cells import Drawing, blank
from classclock.screens.entry import Entry
from classclock.screens.look import Look


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

    def show(self, card: Emergency) -> None:
        self.card = card
        self.display = True
        self.repaint()

    def offer(self, sign: str) -> bool:
        """Whether this sign was the card's own: enter opens its line, escape closes it."""
        if not self.display or sign not in ("<enter>", "<escape>"):
            return False
        if sign == "<enter>":
            self.focus()
        else:
            self.display = False
        return True

    def entered(self) -> None:
        self.post_message(self.Noted(self.text))

    def left(self) -> None:
        self.blur()

    def paint(self, columns: int, rows: int) -> Drawing:
        return blank(columns, rows, self.look.theme.ground)
