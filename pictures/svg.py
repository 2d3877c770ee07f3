"""A terminal's cells as an SVG picture, in a plain frame of our own.

Block graphics are drawn as rectangles, so that no font leaves gaps between them.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from html import escape

from msgspec import Struct
from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style

WIDTH, HEIGHT, MARGIN = 10, 20, 14
"""A cell's size and the frame's breadth, in the picture's units."""
GROUND, INK = "#0f1216", "#f3f0e6"
Rect = tuple[float, float, float, float]
"""Left, top, width and height as shares of a cell."""


class Run(Struct, frozen=True):
    """Cells of one style in a row, from this column."""

    column: int
    text: str
    ink: str
    ground: str
    bold: bool


def picture(rows: Sequence[Iterable[Segment]], columns: int, title: str) -> str:
    """The SVG of a screen of so many columns. `title` is for who can't see it."""
    width, height = columns * WIDTH + 2 * MARGIN, len(rows) * HEIGHT + 2 * MARGIN
    body = "".join(
        _run(run, MARGIN + number * HEIGHT) for number, row in enumerate(rows) for run in _runs(row)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" role="img" '
        'font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="16.6">'
        f"<title>{escape(title)}</title>"
        f'<rect width="{width}" height="{height}" rx="6" fill="{GROUND}" '
        f'stroke="#3a4048" stroke-width="2"/><g shape-rendering="crispEdges">{body}</g></svg>\n'
    )


def _runs(row: Iterable[Segment]) -> Iterator[Run]:
    column = 0
    for text, style, _ in row:
        ink, ground, bold = _colours(style)
        yield Run(column, text, ink, ground, bold)
        column += cell_len(text)


def _colours(style: Style | None) -> tuple[str, str, bool]:
    if style is None:
        return INK, GROUND, False
    ink = style.color.get_truecolor().hex if style.color and not style.color.is_default else INK
    ground = GROUND
    if style.bgcolor and not style.bgcolor.is_default:
        ground = style.bgcolor.get_truecolor().hex
    if style.reverse:
        ink, ground = ground, ink
    return ink, ground, bool(style.bold)


def _run(run: Run, top: int) -> str:
    left = MARGIN + run.column * WIDTH
    width = cell_len(run.text) * WIDTH
    parts = []
    if run.ground.lower() != GROUND:
        parts.append(_rect(left, top, width, HEIGHT, run.ground))
    column = 0
    for sign in run.text:
        parts += [
            _rect(left + (column + x) * WIDTH, top + y * HEIGHT, w * WIDTH, h * HEIGHT, run.ink)
            for x, y, w, h in block(sign) or ()
        ]
        column += cell_len(sign)
    weight = ' font-weight="bold"' if run.bold else ""
    parts += [
        f'<text x="{left + cell_len(before) * WIDTH}" y="{top + 15}" fill="{run.ink}"{weight} '
        f'textLength="{cell_len(word) * WIDTH}">{escape(word)}</text>'
        for before, word in _words(run.text)
    ]
    return "".join(parts)


def _words(text: str) -> Iterator[tuple[str, str]]:
    """Each word that isn't made of blocks, with what stands before it."""
    plain = "".join(" " if block(sign) is not None else sign for sign in text)
    for match in re.finditer(r"\S+", plain):
        yield text[: match.start()], match[0]


def _rect(x: float, y: float, width: float, height: float, fill: str) -> str:
    return f'<rect x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}" fill="{fill}"/>'


_QUADRANTS = dict(zip("▘▝▀▖▌▞▛▗▚▐▜▄▙▟█", range(1, 16), strict=True))


def block(sign: str) -> tuple[Rect, ...] | None:
    """The rectangles of a block graphics sign (Unicode U+2580 to 259F, 1FB00 to 1FB3B)."""
    code = ord(sign)
    if sign in _QUADRANTS:
        return _grid(_QUADRANTS[sign], across=2, down=2)
    if 0x2581 <= code <= 0x2588:
        share = (code - 0x2580) / 8
        return ((0, 1 - share, 1, share),)
    if 0x2589 <= code <= 0x258F:
        return ((0, 0, (0x2590 - code) / 8, 1),)
    if sign == "▔":
        return ((0, 0, 1, 1 / 8),)
    if sign == "▕":
        return ((7 / 8, 0, 1 / 8, 1),)
    if 0x1FB00 <= code <= 0x1FB3B:
        return _grid(_sextant_bits(code), across=2, down=3)
    return None


def _sextant_bits(code: int) -> int:
    """The pattern: numbered in order, but for the two that are half blocks of their own."""
    bits = code - 0x1FB00 + 1
    bits += bits >= 0b010101
    return bits + (bits >= 0b101010)


def _grid(bits: int, *, across: int, down: int) -> tuple[Rect, ...]:
    return tuple(
        (place % across / across, place // across / down, 1 / across, 1 / down)
        for place in range(across * down)
        if bits >> place & 1
    )
