"""What was laid out, as cells: texts in the size they were found to have; what is drawn."""

from collections.abc import Callable, Iterable, Mapping

from msgspec import Struct
from rich.cells import cell_len

from classclock.screens.canvas.cells import Drawing, VerticalAlign, above, lay_out, place
from classclock.screens.canvas.layout.nodes import Box, Spot, Spots
from classclock.screens.canvas.layout.parts import Name
from classclock.screens.canvas.letters import outline_type
from classclock.screens.canvas.look import Look

_LETTERS = 3
"""Rows from which letters are drawn."""


class Ink(Struct, frozen=True):
    """How a text looks. Colours are the look's own unless given."""

    ink: str = ""
    ground: str = ""
    bold: bool = False
    words: str | None = None
    """In place of those that it was laid out with, in one line."""
    down: VerticalAlign = "middle"
    """In a spot that is higher than its lines."""


Drawer = Callable[[int, int], Drawing]
"""Columns and rows in, a drawing of that size or a smaller one out."""


def draw_arranged(
    spots: Spots,
    columns: int,
    rows: int,
    look: Look,
    *,
    inks: Mapping[Name, Ink] | None = None,
    drawers: Mapping[Name, Drawer] | None = None,
) -> Drawing:
    """A box of this size with all that has a spot; a spot without lines or drawer stays free."""
    inks, drawers = inks or {}, drawers or {}
    parts = []
    for name, spot in spots.items():
        if name in drawers:
            drawn = look.box(drawers[name](spot.box.width, spot.box.height), *spot.box[2:])
        elif spot.lines:
            drawn = draw_spot(spot, look, inks.get(name, Ink()))
        else:
            continue
        parts.append((spot.box.x, spot.box.y, drawn))
    return lay_out(parts, columns, rows, look.theme.ground)


def draw_boxes(
    parts: Iterable[tuple[Box, Drawing]], columns: int, rows: int, ground: str
) -> Drawing:
    """Drawings in their boxes, on a ground of this size; a box without room is left out."""
    placed = (
        (box.x, box.y, place(drawing, box.width, box.height, ground))
        for box, drawing in parts
        if box.width > 0 and box.height > 0
    )
    return lay_out(placed, columns, rows, ground)


def draw_spot(spot: Spot, look: Look, ink: Ink) -> Drawing:
    """A text in its spot."""
    here = look.on(ink.ground or look.theme.ground, ink.ink or look.theme.ink)
    lines = spot.lines if ink.words is None else (ink.words,)
    wide, high = spot.box.width, spot.box.height
    drawn = [_line(line, wide, spot.size, here, bold=ink.bold) for line in lines]
    placed = [here.box(line, wide, max(spot.size, 1), across=spot.across) for line in drawn]
    return here.box(above(*placed), wide, high, down=ink.down)


def _line(words: str, columns: int, rows: int, look: Look, *, bold: bool) -> Drawing:
    if rows < _LETTERS:
        return look.text(words, min(columns, max(1, cell_len(words))), bold=bold)
    # Capitals and numerals fill their rows: what stands under them is parted by some dots.
    air = air_under(rows) if outline_type.fills_rows(words) else 0
    return look.letters(words, columns, rows, air=air)


def air_under(size: int) -> int:
    """Thirds of a row left free below capitals and numerals of such a size."""
    return max(1, size - _LETTERS) if size > _LETTERS else 0
