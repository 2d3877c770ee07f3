"""Drawings: rows of styled segments, every row of a drawing equally wide.

Segments are what Textual's strips hold, so a widget's `render_line` hands over a row as it is.
Drawings are immutable and may be cached and shared.
"""

import unicodedata
from collections.abc import Iterable
from functools import lru_cache
from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING, Literal

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style

from classclock.tally.signs import GOAL_MARK
from classclock.units.likeness import LIKE
from classclock.units.printable import escaped

if TYPE_CHECKING:
    from textual.strip import Strip

CellRow = tuple[Segment, ...]
Drawing = tuple[CellRow, ...]
Side = Literal["left", "middle", "right"]
VerticalAlign = Literal["top", "middle", "bottom"]


@lru_cache(maxsize=4096)
def style(ink: str, ground: str, *, bold: bool = False) -> Style:
    """Black by its name is one of a terminal's sixteen: bold it would be grey in many of them."""
    return Style(color=ink, bgcolor=ground, bold=bold and ink != "black")


def row_of(cells: Iterable[tuple[str, str, str]]) -> CellRow:
    """A row from (character, ink, ground) cells; neighbours of one style become one segment."""
    return tuple(
        Segment("".join(cell[0] for cell in run), style(ink, ground))
        for (ink, ground), run in groupby(cells, key=itemgetter(1, 2))
    )


def width(drawing: Drawing) -> int:
    return cell_len("".join(segment.text for segment in drawing[0])) if drawing else 0


@lru_cache(maxsize=1024)
def blank(columns: int, rows: int, ground: str) -> Drawing:
    row = (Segment(" " * columns, style(ground, ground)),) if columns > 0 else ()
    return (row,) * rows


def line(text: str, ink: str, ground: str, *, bold: bool = False, columns: int = 0) -> Drawing:
    """Ordinary terminal text, one row; with `columns` cut or filled to that width.

    All text comes to the screen by this function, by `Look.text` or by `Look.letters`.
    """
    text = escaped(text)
    shown = set_cell_size(text, columns) if columns else text
    return ((Segment(shown, style(ink, ground, bold=bold)),),) if shown else ((),)


def beside(*drawings: Drawing) -> Drawing:
    """Side by side; all must be equally high."""
    return tuple(
        tuple(segment for row in rows for segment in row) for rows in zip(*drawings, strict=True)
    )


def above(*drawings: Drawing) -> Drawing:
    """One over the other; all must be equally wide."""
    return tuple(row for drawing in drawings for row in drawing)


def place(
    drawing: Drawing,
    columns: int,
    rows: int,
    ground: str,
    *,
    across: Side = "left",
    down: VerticalAlign = "top",
) -> Drawing:
    """The drawing within a box of this size, filled with `ground`; what doesn't fit is cut off."""
    spare_rows = max(0, rows - len(drawing))
    over = {"top": 0, "middle": spare_rows // 2, "bottom": spare_rows}[down]
    wide, kept = width(drawing), drawing[:rows]
    if wide > columns:
        kept = tuple(tuple(Segment.adjust_line_length(list(row), columns)) for row in kept)
    elif wide < columns:
        spare = columns - wide
        before = {"left": 0, "middle": spare // 2, "right": spare}[across]
        kept = tuple((*_gap(before, ground), *row, *_gap(spare - before, ground)) for row in kept)
    return above(
        blank(columns, over, ground), kept, blank(columns, rows - over - len(kept), ground)
    )


def _gap(columns: int, ground: str) -> CellRow:
    return blank(columns, 1, ground)[0]


def lay_out(
    parts: Iterable[tuple[int, int, Drawing]], columns: int, rows: int, ground: str
) -> Drawing:
    """Drawings on a ground of this size, each with its upper left corner at (x, y).

    They must lie within, and none over another.
    """
    ordered = sorted(((x, y, part, width(part)) for x, y, part in parts), key=itemgetter(0))
    laid = []
    for at in range(rows):
        row: list[Segment] = []
        end = 0
        for x, y, part, wide in ordered:
            if y <= at < y + len(part):
                row += (*_gap(x - end, ground), *part[at - y])
                end = x + wide
        laid.append((*row, *_gap(columns - end, ground)))
    return tuple(laid)


def overlay(under: Drawing, over: Drawing, x: int, y: int) -> Drawing:
    """`over` set into `under` with its upper left corner there; it must lie within."""
    columns, end = width(under), x + width(over)
    rows = list(under)
    for at, row in enumerate(over, y):
        before, _, after = Segment.divide(rows[at], (x, end, columns))
        rows[at] = (*before, *row, *after)
    return tuple(rows)


def plain_text(drawing: Drawing) -> str:
    """The characters alone, for a log or a test."""
    return "\n".join("".join(segment.text for segment in row) for row in drawing)


_ASCII = str.maketrans(
    dict.fromkeys("▏▎▍▌▐│╵", "|")
    | {GOAL_MARK: "I"}
    | dict.fromkeys("▋▊▉", " ")
    | dict.fromkeys("┌┐└┘├", "+")
    | {"─": "-", "▀": "=", "\u2571": "/", "█": "#", "□": "o"}
    | {"•": "*", "…": ".", "→": ">", "\N{NO-BREAK SPACE}": " "}
    | {"\N{EN DASH}": "-", "\N{EM DASH}": "-", "\N{MULTIPLICATION SIGN}": "x"}
)


def in_ascii(drawing: Drawing) -> Drawing:
    """For a terminal that has ASCII only: edges stand on whole cells, letters lose their accents.

    What has no likeness is a question mark for each cell that it takes.
    """
    return tuple(
        tuple(Segment(_ascii(segment.text), segment.style) for segment in row) for row in drawing
    )


def _ascii(text: str) -> str:
    text = text.translate(_ASCII)
    return text if text.isascii() else "".join(map(_ascii_sign, text))


def _ascii_sign(sign: str) -> str:
    if sign.isascii():
        return sign
    wide = cell_len(sign)
    plain = unicodedata.normalize("NFKD", LIKE.get(sign, sign)).encode("ascii", "ignore").decode()
    return plain if len(plain) == wide else "?" * wide


def strips(drawing: Drawing) -> "tuple[Strip, ...]":
    """For `render_line`: made once for a drawing and kept."""
    from textual.strip import Strip  # noqa: PLC0415 - slow to import, and only widgets need it

    columns = width(drawing)
    return tuple(Strip(row, columns) for row in drawing)
