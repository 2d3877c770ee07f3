"""What has been typed and waits for its letter, large, over whatever stands there."""

from rich.cells import cell_len

from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted

_SHARE = 5
"""It takes one row in so many."""


class PendingSign(Painted):
    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.text = self.words = ""
        self.display = False

    def show(self, text: str, words: str = "") -> None:
        """`words`: what enter would do with it, in a row below."""
        if (text, words) == (self.text, self.words):
            return
        self.text, self.words = text, words
        self.display = bool(text)
        rows = self._letters
        wide = max(lettering_width(text, rows, self.look.terminal), cell_len(words))
        self.styles.height = rows + (3 if words else 2)
        self.styles.width = wide + 4
        self.styles.max_width = self.app.size.width
        self.repaint()

    @property
    def _letters(self) -> int:
        return max(3, min(9, self.app.size.height // _SHARE))

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        look = self.look.on(theme.key_ground, theme.key_ink)
        inner, high = columns - 2, rows - (3 if self.words else 2)
        drawn = look.box(
            look.letters(self.text, inner, high), inner, high, across="middle", down="middle"
        )
        if self.words:
            drawn = above(drawn, look.text(self.words, inner, bold=True))
        return look.box(drawn, columns, rows, across="middle", down="middle")
