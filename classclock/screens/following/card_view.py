"""The emergency card, as long as the coach has it up."""

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.card.emergency_drawing import draw_card


class CardView(Painted):
    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.card = Emergency()
        self.before = False

    def show(self, card: Emergency, *, before: bool) -> None:
        """`before`: nothing of this class has been started."""
        self.display = True
        if (card, before) != (self.card, self.before):
            self.card, self.before = card, before
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        here = self.look.on(theme.alarm_ground, theme.alarm_ink)
        return draw_card(self.card, columns, rows, here, before=self.before)
