"""The largest letters for a box: outline type, plain blocks, dot letters or terminal text.

A word that no drawn letter has comes as terminal text among the others, on the line they stand on.
"""

import unicodedata
from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct
from rich.cells import cell_len, set_cell_size

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, beside, blank, line, place, width
from classclock.screens.canvas.letters import dot_type, outline_type, plain_blocks
from classclock.screens.canvas.letters.mosaic import MOSAICS
from classclock.units.cell_dots import rows_of_dots
from classclock.units.likeness import spelled
from classclock.wall.colours.mixing import is_grey

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

    `air` thirds of a row stay free below numerals in outline type. Where only some words can be
    drawn, the others stand among them as terminal text. Text of which none can, or that fits in no
    drawn letters, comes out as bold terminal text, cut at the box's width.
    """
    text = _composed(text)
    return (
        _drawn(text, columns, rows, paint, air)
        or _in_runs(text, columns, rows, paint)
        or line(
            set_cell_size(text, min(cell_len(text), columns)), paint.ink, paint.ground, bold=True
        )
    )


@lru_cache(maxsize=4096)
def lettering_width(text: str, rows: int, terminal: Terminal) -> int:
    """Columns that the text takes at least when drawn as high as this."""
    text = _composed(text)
    if (wide := _drawn_width(text, rows, terminal)) is not None:
        return wide
    runs = _runs(text, rows, terminal)
    return _runs_width(runs, rows, terminal) if len(runs) > 1 else cell_len(text)


def _composed(text: str) -> str:
    if text.isascii():
        return text
    return unicodedata.normalize("NFC", text).replace("\N{NO-BREAK SPACE}", " ")


def _drawn(text: str, columns: int, rows: int, paint: Paint, air: int) -> Drawing | None:
    return (
        _outline(text, columns, rows, paint, air)
        or _blocks(text, columns, rows, paint)
        or _dots(text, columns, rows, paint)
    )


def _drawn_width(text: str, rows: int, terminal: Terminal) -> int | None:
    """Columns of the text in drawn letters; None where it has none of this height."""
    if rows > 1 and _has_outline(text, rows, terminal):
        return outline_type.text_width(in_outline(text), rows)
    if rows >= dot_type.ROWS and terminal.dots and dot_type.can_draw(text, terminal.dots):
        return dot_type.least_width(text, rows, terminal.dots)
    return None


class _Run(Struct, frozen=True):
    """Words beside each other that are all drawn, or none of them."""

    text: str
    drawn: bool


def _runs(text: str, rows: int, terminal: Terminal) -> list[_Run]:
    """The words in runs, at this height; none where no word can be drawn."""
    runs: list[_Run] = []
    for word in text.split():
        drawn = _drawn_width(word, rows, terminal) is not None
        if runs and runs[-1].drawn == drawn:
            runs[-1] = _Run(f"{runs[-1].text} {word}", drawn)
        else:
            runs.append(_Run(word, drawn))
    return runs if any(run.drawn for run in runs) else []


def _space(rows: int) -> int:
    """Columns between drawn letters of this height and terminal text."""
    return max(2, rows // 3)


def _runs_width(runs: Sequence[_Run], rows: int, terminal: Terminal) -> int:
    wide = [
        cell_len(run.text) if not run.drawn else lettering_width(run.text, rows, terminal)
        for run in runs
    ]
    return sum(wide) + _space(rows) * (len(runs) - 1)


def _in_runs(text: str, columns: int, rows: int, paint: Paint) -> Drawing | None:
    """Drawn letters with terminal text among them; None where that fits at no height."""
    for high in range(rows, dot_type.ROWS - 1, -1):
        if high == _LEAST_OUTLINE:
            continue  # capitals would be of another type than words
        runs = _runs(text, high, paint.terminal)
        if len(runs) > 1 and _runs_width(runs, high, paint.terminal) <= columns:
            return _draw_runs(runs, high, paint)
    return None


def _draw_runs(runs: Sequence[_Run], rows: int, paint: Paint) -> Drawing:
    terminal, ground = paint.terminal, paint.ground
    stands = min(_line_row(run.text, rows, terminal) for run in runs if run.drawn)
    parts: list[Drawing] = []
    for run in runs:
        if parts:
            parts.append(blank(_space(rows), rows, ground))
        if run.drawn:
            # Capitals and numerals alone would fill all rows, and be larger than the words.
            high = rows if _line_row(run.text, rows, terminal) == stands else stands + 1
            wide = lettering_width(run.text, rows, terminal)
            drawn = draw_lettering(run.text, wide, high, paint)
        else:
            text = line(run.text, paint.ink, ground, bold=True)
            drawn = place(text, width(text), stands + 1, ground, down="bottom")
        parts.append(place(drawn, width(drawn), rows, ground))
    return beside(*parts)


def _line_row(text: str, rows: int, terminal: Terminal) -> int:
    """The row, from 0, in which letters of this height end on the line that they stand on."""
    if _has_outline(text, rows, terminal):
        return outline_type.line_row(in_outline(text), rows)
    return dot_type.line_row(rows, terminal.dots or "halves")


def in_outline(text: str) -> str:
    """The text in signs that outline type has, as far as there are any."""
    return text if text.isascii() else "".join(spelled(text, outline_type.can_draw))


def _has_outline(text: str, rows: int, terminal: Terminal) -> bool:
    if not (terminal.dots and text and rows >= _LEAST_OUTLINE):
        return False
    least = _LEAST_OUTLINE if outline_type.fills_rows(text) else _LEAST_OUTLINE_WORD
    return rows >= least and outline_type.can_draw(in_outline(text))


def _outline(text: str, columns: int, rows: int, paint: Paint, air: int) -> Drawing | None:
    terminal = paint.terminal
    if not _has_outline(text, rows, terminal):
        return None
    shown = in_outline(text)
    fitting = outline_type.fit_rows(shown, columns, rows)
    if terminal.dots is None or not _has_outline(text, fitting, terminal):
        return None
    mosaic = MOSAICS[terminal.dots]
    return outline_type.draw_text(
        shown,
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
    text = "".join(spelled(text, plain_blocks.can_draw))
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
