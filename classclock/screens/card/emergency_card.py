"""The emergency card: who to call, from where, and where the help is. Taps go through under it."""

from dataclasses import dataclass

from textual.message import Message

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.foot_keys import key_rows
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_drawing import MARGIN, draw_card
from classclock.screens.card.emergency_lines import card_keys, note_line
from classclock.screens.controls.line_entry import LineEntry
from classclock.screens.controls.meant import Meant


class EmergencyCard(LineEntry):
    """Enter opens a line for who, when and what was done; taps go through until then.

    Before a class tab asks for what the card lacks; while one runs the card alone is seen.
    """

    @dataclass
    class Noted(Meant):
        """A line for the journal, never for the wall."""

        text: str

    class FillIn(Message):
        """What it lacks is to be asked for."""

    def __init__(self, look: Look, *, mirrored: bool = True, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.mirrored = mirrored
        self.card = Emergency()
        self.before = False
        self.writing = False
        self.noted = 0

    @property
    def takes_keys(self) -> bool:
        return self.writing

    def show(self, card: Emergency, *, before: bool) -> None:
        """`before`: nothing of this class has been started."""
        self.card = card
        self.before = before
        self.noted = 0
        self.display = True
        self.repaint()

    @property
    def fillable(self) -> bool:
        return self.before and bool(self.card.lacking)

    def offer(self, sign: str) -> bool:
        """Whether this sign was the card's own: enter opens its line, escape closes it."""
        if not self.display:
            return False
        match sign:
            case "<enter>":
                self.writing = True
                self.focus()
                self.repaint()
            case "<escape>":
                self.display = False
            case "<tab>" if self.fillable:
                self.post_message(self.FillIn())
            case _:
                return False
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
        inner = columns - 2 * MARGIN
        under = key_rows(card_keys(self.noted, fillable=self.fillable), inner)
        if self.writing:
            under = (note_line(self.text, mirrored=self.mirrored)[-inner:],)
        foot = above(*(here.text(row, inner, bold=True) for row in under))
        left = rows - len(under)
        card = draw_card(self.card, columns, left, here, before=self.before)
        return above(card, here.box(foot, columns, len(under), across="middle"))
