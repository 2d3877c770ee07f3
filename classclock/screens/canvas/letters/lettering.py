"""The largest letters for a box: outline type, plain blocks, dot letters or terminal text."""

from functools import lru_cache

from msgspec import Struct
from rich.cells import cell_len, set_cell_size

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, line
from classclock.screens.canvas.letters import dot_letters, outline_type, plain_blocks
from classclock.screens.canvas.letters.mosaic import QUADRANTS, SEXTANTS

_LEAST_OUTLINE = 4
"""Rows under which outline type has too few dots for numerals and capitals, which fill them."""
_LEAST_OUTLINE_WORD = 5
"""The same for words: what reaches above and below takes a third of the rows."""
_DOT_ROWS = 3


class Paint(Struct, frozen=True):
    """Letters' colour and what is under them; `#rrggbb` where there is true colour."""

    ink: str
    ground: str
    terminal: Terminal


@lru_cache(maxsize=2048)
def draw_lettering(text: str, columns: int, rows: int, paint: Paint, *, air: int = 0) -> Drawing:
    """The text as large as fits the box of cells; its own width and height, at most the box's.

    `air` dots stay free below numerals in outline type. Text that no drawn letter has, or that
    fits in none, comes out as bold terminal text, cut at the box's width.
    """
    return (
        _outline(text, columns, rows, paint, air)
        or _blocks(text, columns, rows, paint)
        or _dots(text, columns, rows, paint)
        or line(
            set_cell_size(text, min(cell_len(text), columns)), paint.ink, paint.ground, bold=True
        )
    )


def _outline(text: str, columns: int, rows: int, paint: Paint, air: int) -> Drawing | None:
    if not (paint.terminal.true_colour and text and rows >= _LEAST_OUTLINE):
        return None
    if not outline_type.can_draw(text):
        return None
    fitting = outline_type.fit_rows(text, columns, rows)
    if fitting < (_LEAST_OUTLINE if outline_type.fills_rows(text) else _LEAST_OUTLINE_WORD):
        return None
    mosaic = SEXTANTS if paint.terminal.sextants else QUADRANTS
    return outline_type.draw_text(text, fitting, paint.ink, paint.ground, mosaic, air=air)


def _blocks(text: str, columns: int, rows: int, paint: Paint) -> Drawing | None:
    if not text or not plain_blocks.can_draw(text):
        return None
    if paint.terminal.sextants and rows < 2 * _DOT_ROWS:
        return None
    signs = not paint.terminal.block_characters
    fitting = plain_blocks.fit_rows(text, columns, rows, signs=signs)
    if not fitting:
        return None
    return plain_blocks.draw_text(text, fitting, paint.ink, paint.ground, signs=signs)


def _dots(text: str, columns: int, rows: int, paint: Paint) -> Drawing | None:
    if not (paint.terminal.sextants and rows >= _DOT_ROWS and text and dot_letters.can_draw(text)):
        return None
    scale = next(
        (
            scale
            for scale in range(rows // _DOT_ROWS, 0, -1)
            if dot_letters.text_width(text, scale) <= columns
        ),
        0,
    )
    if not scale:
        return None
    tall = scale == 1 and dot_letters.has_tall(text)
    return dot_letters.draw_text(text, paint.ink, paint.ground, scale, tall=tall)
