"""The clock, the largest thing on the screen."""

from msgspec import Struct

from classclock.screens.canvas.cells import Drawing, Side, place
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted


class ClockFace(Struct, frozen=True):
    text: str = ""
    inverted: bool = False
    across: Side = "left"


def draw_clock(face: ClockFace, columns: int, rows: int, look: Look) -> Drawing:
    """The clock as large as the box allows."""
    ink, ground = look.theme.ink, look.theme.ground
    if face.inverted:
        ink, ground = ground, ink
    if not (columns and rows):
        return ()
    drawn = look.letters(face.text, columns, rows, ink=ink, ground=ground)
    return place(drawn, columns, rows, ground, across=face.across, down="middle")


class BigClock(Painted):
    face = ClockFace()

    def show(self, face: ClockFace) -> None:
        if face != self.face:
            self.face = face
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_clock(self.face, columns, rows, self.look)
