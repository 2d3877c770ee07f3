"""A dot letter of our own for lines of three to five rows, where outline type has too few dots.

Capitals and digits are six dots wide and seven high: more than the 5 x 7 that ISO 9241-3 asks for
at least. In sextant cells (half a cell wide, a third high) that is 0.64 : 1. The shapes are in
dot_letters.txt. Accents are set over or under the plain letter.
"""

import unicodedata
from functools import cache
from pathlib import Path

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.letters.dot_shapes import Shape, centred, read_shapes
from classclock.screens.canvas.letters.mosaic import SEXTANTS, from_dots

CAP = 7
"""Dots from the top of a capital to the line it stands on."""
HEIGHT = 9
"""Dots with what reaches below the line."""
_GAP = ".."
_SPACE = "..."
_PLAIN_ABOVE = frozenset("2QRVWZ")  # their lower half is slanted

_OVER = {
    "\u0300": (".##...", "..##.."),  # grave
    "\u0301": ("...##.", "..##.."),  # acute
    "\u0302": ("..##..", ".#..#."),  # circumflex
    "\u0303": (".##..#", "#..##."),  # tilde
    "\u0304": (".####.", "......"),  # macron
    "\u0306": ("#....#", ".####."),  # breve
    "\u0307": ("..##..", "......"),  # dot
    "\u0308": ("##..##", "......"),  # diaeresis
    "\u030a": ("..##..", "..##.."),  # ring
    "\u030b": (".##.##", "##.##."),  # double acute
    "\u030c": (".#..#.", "..##.."),  # caron
}
_UNDER = {
    "\u0326": ("..##..", "..#..."),  # comma
    "\u0327": ("...##.", ".###.."),  # cedilla
    "\u0328": ("...##.", "...###"),  # ogonek
}
_MARK_WIDTH = 6


@cache
def _shapes() -> dict[str, Shape]:
    return {" ": (_SPACE,) * HEIGHT} | read_shapes(Path(__file__).with_suffix(".txt"), HEIGHT)


def shape_of(character: str) -> Shape | None:
    """Its rows of dots; None where there is neither a shape nor a letter and its accents."""
    shapes = _shapes()
    if character in shapes:
        return shapes[character]
    base, *marks = list(unicodedata.normalize("NFD", character))
    rows = shapes.get("\u0131" if base == "i" else base)
    if rows is None or not marks:
        return None
    for mark in marks:
        if mark in _OVER:
            rows = _with_mark_over(rows, _OVER[mark])
        elif mark in _UNDER:
            rows = _with_mark_under(rows, _UNDER[mark])
        else:
            return None
    return rows


def _with_mark_over(rows: Shape, mark: Shape) -> Shape:
    if "#" in rows[0] + rows[1]:
        # A capital makes room: of each pair of like rows in its upper and lower half one goes.
        rows = (*rows[:2], rows[3], *rows[4:5], *rows[6:])
        letter = _widened(rows)
        return (*centred(mark, len(letter[0])), *letter)[:HEIGHT]
    letter = _widened(rows)
    return (*centred(mark, len(letter[0])), *letter[2:])


def _with_mark_under(rows: Shape, mark: Shape) -> Shape:
    letter = _widened(rows)
    return (*letter[:CAP], *centred(mark, len(letter[0])))


def _widened(rows: Shape) -> Shape:
    """Narrow letters get room at both sides for a mark."""
    return tuple(row.center(_MARK_WIDTH - 2, ".") for row in rows)


def can_draw(text: str) -> bool:
    """Whether there is a shape, or a letter and its accents, for every character."""
    return all(shape_of(character) for character in unicodedata.normalize("NFC", text))


def _taller(character: str, shape: Shape) -> Shape:
    """A capital or digit eight dots high: a row of plain uprights is drawn twice."""
    twice = 1 if character in _PLAIN_ABOVE else 5
    return (*shape[: twice + 1], *shape[twice : HEIGHT - 1])


def has_tall(text: str) -> bool:
    """Whether it can be drawn eight dots high: plain capitals, digits and the signs of a score."""
    return text.isascii() and not any(c.islower() or c in ",;" for c in text)


def dots(text: str, scale: int = 1, *, tall: bool = False) -> Shape:
    """The text as rows of dots, `scale` times as large; unknown characters are left out.

    `tall` is for capitals and digits alone: eight dots high, where reading distance counts most.
    """
    shapes = [
        _taller(character, shape) if tall else shape
        for character in unicodedata.normalize("NFC", text)
        for shape in [shape_of(character)]
        if shape
    ]
    rows = [_GAP.join(parts) for parts in zip(*shapes, strict=True)] or [""] * HEIGHT
    return tuple("".join(dot * scale for dot in row) for row in rows for _ in range(scale))


def text_width(text: str, scale: int = 1) -> int:
    """Columns that the text takes."""
    shapes = filter(None, map(shape_of, unicodedata.normalize("NFC", text)))
    wide = [len(shape[0]) for shape in shapes]
    between = len(_GAP) * max(0, len(wide) - 1)
    return -(-(sum(wide) + between) * scale // SEXTANTS.across)


def draw_text(text: str, ink: str, ground: str, scale: int = 1, *, tall: bool = False) -> Drawing:
    """The text in sextants, three rows high, times the scale."""
    return from_dots(dots(text, scale, tall=tall), SEXTANTS, ink, ground)


def draw_label(text: str, ink: str, ground: str) -> Drawing:
    """Capitals and digits three rows high, with a dot's room above and below, for a block."""
    return from_dots(("", *dots(text)[:CAP], ""), SEXTANTS, ink, ground)
