"""The line that says that keys go elsewhere: shown while the terminal has lost the focus."""

from textual.message import Message

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.painted import Painted


class FocusMoved(Message):
    """The terminal's window got the keys, or another one did."""

    def __init__(self, here: bool) -> None:  # noqa: FBT001  there is nothing else it could mean
        super().__init__()
        self.here = here


class FocusLine(Painted):
    WORDS = "keys don't reach the clock: click this window"

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        here = self.look.on(theme.alarm_ground, theme.alarm_ink)
        line = here.text(self.WORDS.center(columns), columns, bold=True)
        return here.box(line, columns, rows, down="middle")
