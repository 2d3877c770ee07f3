"""The clock, the largest thing on the screen."""

from msgspec import Struct

from classclock.screens.canvas.cells import Drawing, Side, above, place
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted

WORD_ROWS = 3
"""Of the word under the clock."""


class ClockFace(Struct, frozen=True):
    text: str = ""
    inverted: bool = False
    across: Side = "left"
    held: str = ""
    """The word under it that says that it stands still."""


def draw_clock(face: ClockFace, columns: int, rows: int, look: Look) -> Drawing:
    """The clock as large as the box allows."""
    ink, ground = look.theme.ink, look.theme.ground
    if face.inverted:
        ink, ground = ground, ink
    if not (columns and rows):
        return ()
    under = _word(face.held, columns, look) if face.held else ()
    high = rows - len(under)
    drawn = look.letters(face.text, columns, high, ink=ink, ground=ground)
    clock = place(drawn, columns, high, ground, across=face.across, down="middle")
    return above(clock, under) if under else clock


def _word(text: str, columns: int, look: Look) -> Drawing:
    theme = look.theme
    here = look.on(theme.hold_ground, theme.hold_ink)
    return place(here.letters(text, columns, WORD_ROWS), columns, WORD_ROWS, theme.ground)


class BigClock(Painted):
    face = ClockFace()

    def show(self, face: ClockFace) -> None:
        if face != self.face:
            self.face = face
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_clock(self.face, columns, rows, self.look)
