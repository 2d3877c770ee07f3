"""One side of a loaded bar as a drawing: what the bar weighs, then each plate with its label."""

from collections.abc import Sequence

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, beside, blank, line, place
from classclock.screens.canvas.letters import dot_type
from classclock.strength.bar_picture import PlateShape
from classclock.units.cell_dots import CellDots
from classclock.wall.colours.theme import Theme

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
    dots = terminal.dots if high >= _LABEL_ROWS else None
    parts = [
        _label(bar, high, theme.quiet, theme.ground, dots=dots),
        _bar(1 + _SHAFT, high, theme),
    ]
    for number, plate in enumerate(plates):
        if number:
            parts.append(_bar(1, high, theme))
        parts.append(_plate(plate, high, theme, dots=dots))
    parts.append(_bar(_SLEEVE, high, theme))
    drawn = beside(*parts)
    wide = sum(segment.cell_length for segment in drawn[0])
    return drawn if wide <= columns else None


def side_columns(labels: Sequence[int]) -> int:
    """Columns of a side whose labels are so wide, the bar's first."""
    bar, *plates = labels
    between = max(0, len(plates) - 1)
    return bar + 1 + _SHAFT + sum(plates) + 2 * len(plates) + between + _SLEEVE


def _plate(plate: PlateShape, rows: int, theme: Theme, *, dots: CellDots | None) -> Drawing:
    ground = theme.first.running
    least = min(rows, _LABEL_ROWS if dots else 1)
    high = max(least, round(plate.height * rows))
    high -= (rows - high) % 2  # as much free above as below
    high = max(least, high)
    label = _label(plate.label, high, theme.ink, ground, dots=dots)
    wide = sum(segment.cell_length for segment in label[0]) + 2
    block = place(label, wide, high, ground, across="middle", down="middle")
    return place(block, wide, rows, theme.ground, down="middle")


def _label(text: str, rows: int, ink: str, ground: str, *, dots: CellDots | None) -> Drawing:
    if dots and dot_type.can_draw(text, dots):
        drawn = dot_type.draw_label(text, ink, ground, dots)
    else:
        drawn = line(text, ink, ground, bold=True)
    wide = sum(segment.cell_length for segment in drawn[0])
    return place(drawn, wide, rows, ground, down="middle")


def _bar(columns: int, rows: int, theme: Theme) -> Drawing:
    rod = line("\N{BOX DRAWINGS LIGHT HORIZONTAL}" * columns, theme.quiet, theme.ground)
    above = blank(columns, rows // 2, theme.ground)
    return (*above, *rod, *above)
