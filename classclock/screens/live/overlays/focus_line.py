"""The line that says that keys go elsewhere: shown while the terminal has lost the focus."""

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.painted import Painted


class FocusLine(Painted):
    WORDS = "keys don't reach the clock: click this window"

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        here = self.look.on(theme.alarm_ground, theme.alarm_ink)
        line = here.text(self.WORDS.center(columns), columns, bold=True)
        return here.box(line, columns, rows, down="middle")
