"""The clock, the largest thing on the screen.

It is painted in slices, and a tick repaints only those in which something changed.
"""

from collections.abc import Iterable
from itertools import pairwise

from msgspec import Struct
from rich.segment import Segment
from textual.app import ComposeResult
from textual.geometry import Region
from textual.widget import Widget

from classclock.screens.drawing.cells import Drawing, Side, blank, place
from classclock.screens.look import Look
from classclock.screens.painted import Painted
from classclock.screens.placed import Placed

_SLICES = 12


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


class ClockSlice(Painted):
    """Some columns of the clock."""

    drawing: Drawing = ()

    def set(self, drawing: Drawing) -> None:
        if drawing != self.drawing:
            self.drawing = drawing
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        return self.drawing or blank(columns, rows, self.look.theme.ground)


class BigClock(Placed):
    def __init__(self, look: Look) -> None:
        super().__init__()
        self.look = look
        self.face = ClockFace()
        self._slices = [ClockSlice(look) for _ in range(_SLICES)]

    def compose(self) -> ComposeResult:
        yield from self._slices

    def places(self, columns: int, rows: int) -> Iterable[tuple[Widget, Region]]:
        for one, (start, end) in zip(self._slices, _cuts(columns), strict=True):
            if end > start:
                yield one, Region(start, 0, end - start, rows)

    def show(self, face: ClockFace) -> None:
        if face != self.face:
            self.face = face
            self._share_out()

    def on_resize(self) -> None:
        self._share_out()

    def _share_out(self) -> None:
        columns, rows = self.size
        drawing = draw_clock(self.face, columns, rows, self.look)
        ends = [end for _, end in _cuts(columns)]
        cut = [tuple(map(tuple, Segment.divide(row, ends))) for row in drawing]
        for number, one in enumerate(self._slices):
            one.set(tuple(row[number] for row in cut))


def _cuts(columns: int) -> list[tuple[int, int]]:
    edges = [columns * number // _SLICES for number in range(_SLICES + 1)]
    return list(pairwise(edges))
