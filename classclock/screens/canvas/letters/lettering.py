"""The largest letters for a box: outline type, plain blocks, dot letters or terminal text."""

from functools import lru_cache

from msgspec import Struct
from rich.cells import cell_len, set_cell_size

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, line
from classclock.screens.canvas.colours import is_grey
from classclock.screens.canvas.letters import dot_type, outline_type, plain_blocks
from classclock.screens.canvas.letters.mosaic import MOSAICS
from classclock.units.cell_dots import rows_of_dots

_LEAST_OUTLINE = 4
"""Rows under which outline type has too few dots for numerals and capitals, which fill them."""
_LEAST_OUTLINE_WORD = 5
"""The same for words: what reaches above and below takes a third of the rows."""


class Paint(Struct, frozen=True):
    """Letters' colour and what is under them; `#rrggbb` where there are shades of it."""

    ink: str
    ground: str
    terminal: Terminal


@lru_cache(maxsize=512)
def draw_lettering(text: str, columns: int, rows: int, paint: Paint, *, air: int = 0) -> Drawing:
    """The text as large as fits the box of cells; its own width and height, at most the box's.

    `air` thirds of a row stay free below numerals in outline type. Text that no drawn letter has,
    or that fits in none, comes out as bold terminal text, cut at the box's width.
    """
    return (
        _outline(text, columns, rows, paint, air)
        or _blocks(text, columns, rows, paint)
        or _dots(text, columns, rows, paint)
        or line(
            set_cell_size(text, min(cell_len(text), columns)), paint.ink, paint.ground, bold=True
        )
    )


@lru_cache(maxsize=4096)
def lettering_width(text: str, rows: int, terminal: Terminal) -> int:
    """Columns that the text takes at least when drawn as high as this."""
    if rows > 1 and _has_outline(text, rows, terminal):
        return outline_type.text_width(text, rows)
    if rows >= dot_type.ROWS and terminal.dots and dot_type.can_draw(text, terminal.dots):
        return dot_type.least_width(text, rows, terminal.dots)
    return cell_len(text)


def _has_outline(text: str, rows: int, terminal: Terminal) -> bool:
    if not (terminal.dots and text and rows >= _LEAST_OUTLINE):
        return False
    least = _LEAST_OUTLINE if outline_type.fills_rows(text) else _LEAST_OUTLINE_WORD
    return rows >= least and outline_type.can_draw(text)


def _outline(text: str, columns: int, rows: int, paint: Paint, air: int) -> Drawing | None:
    terminal = paint.terminal
    if not _has_outline(text, rows, terminal):
        return None
    fitting = outline_type.fit_rows(text, columns, rows)
    if terminal.dots is None or not _has_outline(text, fitting, terminal):
        return None
    mosaic = MOSAICS[terminal.dots]
    return outline_type.draw_text(
        text,
        fitting,
        paint.ink,
        paint.ground,
        mosaic,
        air=rows_of_dots(air, mosaic.down),
        shades=_has_shades(paint),
    )


def _has_shades(paint: Paint) -> bool:
    """Whether there are tones between ink and ground; of 256 colours only the greys are so fine."""
    if paint.terminal.colours == 256:
        return is_grey(paint.ink) and is_grey(paint.ground)
    return paint.terminal.shades


def _blocks(text: str, columns: int, rows: int, paint: Paint) -> Drawing | None:
    signs = paint.terminal.dots is None
    if not text or not plain_blocks.can_draw(text):
        return None
    if not signs and rows < 2 * dot_type.ROWS:
        return None
    fitting = plain_blocks.fit_rows(text, columns, rows, signs=signs)
    if not fitting:
        return None
    return plain_blocks.draw_text(text, fitting, paint.ink, paint.ground, signs=signs)


def _dots(text: str, columns: int, rows: int, paint: Paint) -> Drawing | None:
    dots = paint.terminal.dots
    if dots is None or not text or not dot_type.can_draw(text, dots):
        return None
    size = dot_type.fit_size(text, columns, rows, dots)
    return dot_type.draw_text(text, size, paint.ink, paint.ground, dots) if size else None
