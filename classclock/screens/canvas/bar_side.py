"""One side of a loaded bar as a drawing: what the bar weighs, then each plate with its label."""

from collections.abc import Sequence

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, beside, blank, line, place
from classclock.screens.canvas.letters.dot_letters import can_draw, draw_label
from classclock.screens.canvas.theme import Theme
from classclock.strength.bar_picture import PlateShape

_LABEL_ROWS = 3
_SHAFT, _SLEEVE = 2, 2
"""Columns of bar before the plates and after them."""


def draw_side(
    bar: str,
    plates: Sequence[PlateShape],
    columns: int,
    rows: int,
    *,
    theme: Theme,
    terminal: Terminal,
) -> Drawing | None:
    """The side, in an odd number of rows; None where it doesn't fit the box with its labels.

    Labels are drawn in dots where there are three rows for them, else in terminal text. Plates
    are as high as they are against the largest, as far as their labels let them.
    """
    high = rows if rows % 2 else rows - 1
    large = high >= _LABEL_ROWS and terminal.sextants
    parts = [
        _label(bar, high, theme.quiet, theme.ground, large=large),
        _bar(1 + _SHAFT, high, theme),
    ]
    for number, plate in enumerate(plates):
        if number:
            parts.append(_bar(1, high, theme))
        parts.append(_plate(plate, high, theme, large=large))
    parts.append(_bar(_SLEEVE, high, theme))
    drawn = beside(*parts)
    wide = sum(segment.cell_length for segment in drawn[0])
    return drawn if wide <= columns else None


def _plate(plate: PlateShape, rows: int, theme: Theme, *, large: bool) -> Drawing:
    ground = theme.first.running
    least = min(rows, _LABEL_ROWS if large else 1)
    high = max(least, round(plate.height * rows))
    high -= (rows - high) % 2  # as much free above as below
    high = max(least, high)
    label = _label(plate.label, high, theme.ink, ground, large=large)
    wide = sum(segment.cell_length for segment in label[0]) + 2
    block = place(label, wide, high, ground, across="middle", down="middle")
    return place(block, wide, rows, theme.ground, down="middle")


def _label(text: str, rows: int, ink: str, ground: str, *, large: bool) -> Drawing:
    if large and can_draw(text):
        drawn = draw_label(text, ink, ground)
    else:
        drawn = line(text, ink, ground, bold=True)
    wide = sum(segment.cell_length for segment in drawn[0])
    return place(drawn, wide, rows, ground, down="middle")


def _bar(columns: int, rows: int, theme: Theme) -> Drawing:
    rod = line("\N{BOX DRAWINGS LIGHT HORIZONTAL}" * columns, theme.quiet, theme.ground)
    above = blank(columns, rows // 2, theme.ground)
    return (*above, *rod, *above)
