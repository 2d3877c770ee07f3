"""Letters of plain dots, three rows high or a multiple of it, in whatever dots a cell has.

Sextants have the dot letter; halves and quadrants, with six dots in three rows, the low one.
"""

from msgspec import Struct

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.letters import dot_letters, low_letters
from classclock.screens.canvas.letters.mosaic import MOSAICS
from classclock.units.cell_dots import CellDots

ROWS = 3
"""How high the smallest are."""


class DotSize(Struct, frozen=True):
    """How large a text is drawn."""

    scale: int
    narrow: bool = False
    """In letters of three dots where they have four otherwise."""


def can_draw(text: str, dots: CellDots | None) -> bool:
    """Whether every character has a shape; where there are no dots none has."""
    if dots is None:
        return False
    if dots == "sextants":
        return dot_letters.can_draw(text)
    return low_letters.can_draw(text, MOSAICS[dots])


def least_width(text: str, rows: int, dots: CellDots) -> int:
    """Columns that the text takes at least where it is drawn in so many rows, three or more."""
    return _width(text, DotSize(rows // ROWS, narrow=True), dots)


def fit_size(text: str, columns: int, rows: int, dots: CellDots) -> DotSize | None:
    """The largest that fits the box; None where none does."""
    sizes = (
        DotSize(scale, narrow) for scale in range(rows // ROWS, 0, -1) for narrow in (False, True)
    )
    return next((size for size in sizes if _width(text, size, dots) <= columns), None)


def line_row(rows: int, dots: CellDots) -> int:
    """The row, from 0, in which letters of this height end on the line that they stand on."""
    cap = dot_letters.CAP if dots == "sextants" else low_letters.CAP
    return -(-cap * (rows // ROWS) // MOSAICS[dots].down) - 1


def _width(text: str, size: DotSize, dots: CellDots) -> int:
    if dots == "sextants":
        return dot_letters.text_width(text, size.scale)
    return low_letters.text_width(text, MOSAICS[dots], size.scale, narrow=size.narrow)


def draw_text(text: str, size: DotSize, ink: str, ground: str, dots: CellDots) -> Drawing:
    """The text; the caller asks `can_draw` first. Smallest capitals and digits fill their rows."""
    if dots == "sextants":
        tall = size.scale == 1 and dot_letters.has_tall(text)
        return dot_letters.draw_text(text, ink, ground, size.scale, tall=tall)
    mosaic = MOSAICS[dots]
    return low_letters.draw_text(text, ink, ground, mosaic, size.scale, narrow=size.narrow)


def draw_label(text: str, ink: str, ground: str, dots: CellDots) -> Drawing:
    """Capitals and digits for a block three rows high, of the least width."""
    if dots == "sextants":
        return dot_letters.draw_label(text, ink, ground)
    return low_letters.draw_label(text, ink, ground, MOSAICS[dots])
