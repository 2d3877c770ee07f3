"""What has been typed and waits for its letter, large, over whatever stands there."""

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted

_SHARE = 5
"""It takes one row in so many."""


class PendingSign(Painted):
    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.text = ""
        self.display = False

    def show(self, text: str) -> None:
        if text == self.text:
            return
        self.text = text
        self.display = bool(text)
        rows = max(3, min(9, self.app.size.height // _SHARE))
        self.styles.height = rows + 2
        self.styles.width = lettering_width(text, rows, self.look.terminal) + 4
        self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        look = self.look.on(theme.key_ground, theme.key_ink)
        drawn = look.letters(self.text, columns - 2, rows - 2)
        return look.box(drawn, columns, rows, across="middle", down="middle")
