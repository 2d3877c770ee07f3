"""A dot letter of our own for lines of three to five rows, where outline type has too few dots.

Capitals and digits are six dots wide and seven high: more than the 5 x 7 that ISO 9241-3 asks for
at least. In sextant cells (half a cell wide, a third high) that is 0.64 : 1. The shapes are in
dot_letters.txt. Accents are set over or under the plain letter, one of each at most. What has no
shape is drawn as what it is like or made of (`units/likeness.py`).

What is simpler than in print: quotes are straight, a fraction is written with its stroke, the caron
of d, l and t stands over them, Ð is as Đ.
"""

import unicodedata
from functools import cache
from pathlib import Path

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.letters.dot_shapes import Shape, centred, read_shapes
from classclock.screens.canvas.letters.mosaic import SEXTANTS, from_dots
from classclock.units.likeness import spelled

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
    "\u0306": ("##..##", ".####."),  # breve
    "\u0307": ("..##..", "......"),  # dot
    "\u0308": ("##..##", "......"),  # diaeresis
    "\u030a": ("..##..", "..##.."),  # ring
    "\u030b": (".##.##", "##.##."),  # double acute
    "\u030c": (".#..#.", "..##.."),  # caron
    "\u0309": ("..###.", "...#.."),  # hook
    "\u0312": ("...##.", "..##.."),  # comma, turned
    "\u031b": ("....##", "....#."),  # horn
}
_UNDER = {
    "\u0326": ("..##..", "..#..."),  # comma
    "\u0327": ("...##.", ".###.."),  # cedilla
    "\u0328": ("...##.", "...###"),  # ogonek
    "\u0323": ("......", "..##.."),  # dot
    "\u0331": ("......", ".####."),  # line
}
_TURNED = {"g\u0327": "g\u0312"}
"""Where there is no room below the mark stands over the letter, turned, as it is printed too."""
_MARK_WIDTH = 6


@cache
def _shapes() -> dict[str, Shape]:
    return {" ": (_SPACE,) * HEIGHT} | read_shapes(Path(__file__).with_suffix(".txt"), HEIGHT)


def shape_of(sign: str) -> Shape | None:
    """The rows of dots of a letter with its marks; None where there is no shape for it."""
    shapes = _shapes()
    if sign in shapes:
        return shapes[sign]
    apart = unicodedata.normalize("NFD", sign)
    base, *marks = list(_TURNED.get(apart, apart))
    rows = shapes.get(base)
    if rows is None or not marks or not all(mark in _OVER or mark in _UNDER for mark in marks):
        return None
    under = next((mark for mark in marks if mark in _UNDER), "")
    over = next((mark for mark in marks if mark in _OVER), "")
    if over:
        rows = shapes.get(f"{base} low", rows)
    if under:
        rows = _with_mark_under(rows, _UNDER[under])
    return _with_mark_over(rows, _OVER[over]) if over else rows


def has_shape(sign: str) -> bool:
    return shape_of(sign) is not None


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
    """Whether there is a shape for every letter, or for what stands for it."""
    if text.isascii():
        return text.isprintable()  # all of those have one
    return all(map(has_shape, spelled(text, has_shape)))


def _signs(text: str) -> list[str]:
    """What the text is drawn in."""
    return list(text) if text.isascii() else spelled(text, has_shape)


def _taller(character: str, shape: Shape) -> Shape:
    """A capital or digit eight dots high: a row of plain uprights is drawn twice."""
    twice = 1 if character in _PLAIN_ABOVE else 5
    return (*shape[: twice + 1], *shape[twice : HEIGHT - 1])


def has_tall(text: str) -> bool:
    """Whether it can be drawn eight dots high: plain capitals, digits and the signs of a score."""
    return text.isascii() and not any(c.islower() or c in ",;|" for c in text)


def dots(text: str, scale: int = 1, *, tall: bool = False) -> Shape:
    """The text as rows of dots, `scale` times as large; what has no shape is left out.

    `tall` is for capitals and digits alone: eight dots high, where reading distance counts most.
    """
    shapes = [
        _taller(sign, shape) if tall else shape
        for sign in _signs(text)
        for shape in [shape_of(sign)]
        if shape
    ]
    rows = [_GAP.join(parts) for parts in zip(*shapes, strict=True)] or [""] * HEIGHT
    return tuple("".join(dot * scale for dot in row) for row in rows for _ in range(scale))


def text_width(text: str, scale: int = 1) -> int:
    """Columns that the text takes."""
    shapes = map(_shapes().get if text.isascii() else shape_of, _signs(text))
    wide = [len(shape[0]) for shape in shapes if shape]
    between = len(_GAP) * max(0, len(wide) - 1)
    return -(-(sum(wide) + between) * scale // SEXTANTS.across)


def draw_text(text: str, ink: str, ground: str, scale: int = 1, *, tall: bool = False) -> Drawing:
    """The text in sextants, three rows high, times the scale."""
    return from_dots(dots(text, scale, tall=tall), SEXTANTS, ink, ground)


def draw_label(text: str, ink: str, ground: str) -> Drawing:
    """Capitals and digits three rows high, with a dot's room above and below, for a block."""
    return from_dots(("", *dots(text)[:CAP], ""), SEXTANTS, ink, ground)
