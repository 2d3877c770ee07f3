"""Whether the TV shows this screen, asked before the coach's own is up for the first time.

No letter, digit or mark answers it, so taps and numbers go through.
"""

from textual.message import Message

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.meant import Meant
from classclock.screens.live.overlays.asked_box import AtTheFoot, BoxQuestion, draw_asked

_ASKS = "Is this screen on the TV?"
_SAYS = "The coach's own screen shows marks, notes and loads: the room mustn't see them."
_SHORT = "The room mustn't see the coach's own screen."
_KEYS = "F7: no, I alone read it    enter: yes, the wall stays    escape: as it was"
_SHORT_KEYS = "F7 no, I alone read it  enter yes  escape as it was"


class ScreenQuestion(Painted, AtTheFoot):
    class NotOnTheTv(Meant):
        """The coach alone reads this screen."""

    class Asked(Message):
        """It stands there, and will be answered in a moment."""

    def ask(self) -> None:
        if not self.display:
            self.post_message(self.Asked())
        self.display = True
        self.repaint()

    def offer(self, sign: str) -> bool:
        """Whether this sign answered it."""
        if not self.display or sign not in ("<f7>", "<enter>", "<escape>"):
            return False
        self.display = False
        if sign == "<f7>":
            self.post_message(self.NotOnTheTv())
        return True

    def paint(self, columns: int, rows: int) -> Drawing:
        room = columns - 4
        says, keys = (
            long if len(long) <= room else short
            for long, short in ((_SAYS, _SHORT), (_KEYS, _SHORT_KEYS))
        )
        return draw_asked(BoxQuestion(says, _ASKS, keys, caret=False), columns, rows, self.look)
