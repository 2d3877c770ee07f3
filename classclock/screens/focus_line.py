"""The line that says that keys go elsewhere: shown while the terminal has lost the focus."""

from classclock.screens.drawing.cells import Drawing, line
from classclock.screens.painted import Painted


class FocusLine(Painted):
    WORDS = "keys don't reach the clock: click this window"

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        return line(
            self.WORDS.center(columns),
            theme.alarm_ink,
            theme.alarm_ground,
            bold=True,
            columns=columns,
        )
