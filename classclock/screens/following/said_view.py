"""What is said to the room in letters as large as there is room for."""

from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.layout.arrange import arrange
from classclock.screens.canvas.layout.parts import Name, Stack, Written
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted

_MARGIN = 2


class SaidView(Painted):
    """`words` for the room, and what only somebody beside the screen need read."""

    def __init__(self, look: Look, *, alarm: bool = False, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        """`alarm`: it stands out by its ground."""
        super().__init__(look, id=id)
        self._alarm = alarm
        self.words = self.detail = ""

    def say(self, words: str, detail: str = "") -> None:
        if (words, detail) != (self.words, self.detail):
            self.words, self.detail = words, detail
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        here = self.look.on(theme.alarm_ground, theme.alarm_ink) if self._alarm else self.look
        return draw_said(self.words, self.detail, columns, rows, here)


def draw_said(words: str, detail: str, columns: int, rows: int, look: Look) -> Drawing:
    """Both in a box of this size."""
    inner = max(1, columns - 2 * _MARGIN)
    parts = Stack(
        (
            Written("words", words, "words", breaks=True),
            Written("detail", detail, "detail", role="coach", breaks=True),
        ),
        gap=1,
        down="middle",
    )
    spots = arrange(parts, inner, rows, CellMeasure(look.terminal)).spots
    inks: dict[Name, Ink] = {"words": Ink(bold=True), "detail": Ink(look.theme.quiet)}
    drawn = draw_arranged(spots, inner, rows, look, inks=inks)
    return look.box(drawn, columns, rows, across="middle")
