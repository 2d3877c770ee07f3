"""Capitals five dots high for cells that are two dots high: three rows hold them and an accent.

Half blocks have a shape of their own, four dots wide and in a narrow box three (low_letters.txt).
Quadrants, twice as fine across, take the dot letter's, from which two of seven rows are left out.
Small letters come out as capitals: five dots are too few for them. What has no shape is drawn as
what it is like or made of (`units/likeness.py`).

What is simpler than in print, beside what dot letters leave out: a mark has one row of dots, which
tells it from the others rather than drawing it.
"""

import unicodedata
from collections.abc import Sequence
from functools import cache, lru_cache
from pathlib import Path

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.letters import dot_letters
from classclock.screens.canvas.letters.dot_shapes import Shape, centred, read_shapes
from classclock.screens.canvas.letters.mosaic import HALVES, Mosaic, from_dots
from classclock.units.likeness import spelled

CAP = 5
"""Dots from the top of a capital to the line it stands on."""
HEIGHT = 6
"""Dots with an accent, which is over the letter or below it."""
_KEPT_ROWS = (
    dict.fromkeys("GS37", (0, 2, 3, 4, 6))
    | dict.fromkeys("QRVWZ\N{YEN SIGN}\N{MULTIPLICATION SIGN}!", (0, 1, 3, 5, 6))
    | dict.fromkeys("\N{PLUS-MINUS SIGN}\N{ALMOST EQUAL TO}", (1, 2, 3, 5, 6))
    | {"2": (0, 2, 3, 5, 6), "5": (0, 1, 2, 4, 6), "=": (0, 2, 3, 4, 6)}
    | {"\N{DIVISION SIGN}": (1, 2, 3, 4, 5), "\N{BROKEN BAR}": (0, 1, 4, 5, 6)}
    | {"\N{INVERTED EXCLAMATION MARK}": (2, 3, 4, 5, 6)}
    | {"\N{INVERTED QUESTION MARK}": (2, 3, 4, 6, 8), "\N{MICRO SIGN}": (2, 3, 4, 6, 7)}
)
"""Of the dot letter's seven those that tell this one from others."""
_USUAL_ROWS = (0, 1, 3, 4, 6)
_BELOW = frozenset(",;\N{LATIN CAPITAL LETTER ENG}")
"""What reaches below the line, by a row that tells it from another."""
_AS_IT_IS = frozenset("\N{MICRO SIGN}")
"""No small letter, though Unicode has a capital for it."""

_OVER = {
    "\u0300": "##..",  # grave
    "\u0301": "..##",  # acute
    "\u0302": ".##.",  # circumflex
    "\u0303": "##.#",  # tilde
    "\u0304": "####",  # macron
    "\u0306": "###.",  # breve
    "\u0307": ".#..",  # dot
    "\u0308": "#..#",  # diaeresis
    "\u030a": ".###",  # ring
    "\u030b": ".#.#",  # double acute
    "\u030c": "#.##",  # caron
    "\u0309": "..#.",  # hook
    "\u031b": "...#",  # horn
}
_UNDER = {
    "\u0326": ".#..",  # comma
    "\u0327": ".##.",  # cedilla
    "\u0328": "..##",  # ogonek
    "\u0323": "..#.",  # dot
    "\u0331": "####",  # line
}
_MARK_WIDTH = 4
_OWN = frozenset("\N{NOT EQUAL TO}")
"""What has a shape of its own though Unicode makes it of others."""


@cache
def _own_shapes() -> dict[str, Shape]:
    return read_shapes(Path(__file__).with_suffix(".txt"), HEIGHT)


@lru_cache(maxsize=1024)
def _plain(character: str, mosaic: Mosaic, *, narrow: bool) -> Shape | None:
    """A character without an accent: five rows, and one below."""
    if character == " ":
        return (".." * mosaic.across,) * HEIGHT
    if mosaic is HALVES:
        shapes = _own_shapes()
        narrower = shapes.get(f"{character} narrow") if narrow else None
        return narrower or shapes.get(character)
    shape = dot_letters.shape_of(character)
    if shape is None:
        return None
    below = shape[dot_letters.CAP] if character in _BELOW else "." * len(shape[0])
    return (*(shape[at] for at in _KEPT_ROWS.get(character, _USUAL_ROWS)), below)


@lru_cache(maxsize=1024)
def _shape(sign: str, mosaic: Mosaic, *, narrow: bool) -> Shape | None:
    if (own := _plain(sign, mosaic, narrow=narrow)) is not None and sign in _OWN:
        return own
    base, *marks = list(unicodedata.normalize("NFD", sign))
    # A mark takes the dots of a letter's usual width.
    letter = _plain(base, mosaic, narrow=narrow and not marks)
    if letter is None or not marks:
        return letter
    if not all(mark in _OVER or mark in _UNDER for mark in marks):
        return None
    letter = tuple(row.center(_MARK_WIDTH * mosaic.across, ".") for row in letter)
    over = next((mark for mark in marks if mark in _OVER), "")
    under = next((mark for mark in marks if mark in _UNDER), "")
    above = (*_placed(_OVER[over], letter, mosaic), "." * len(letter[0])) if over else ()
    below = _placed(_UNDER[under], letter, mosaic) if under else letter[CAP:]
    return (*above, *(_lower(letter[:CAP]) if over else letter[:CAP]), *below)[:HEIGHT]


def _placed(mark: str, letter: Shape, mosaic: Mosaic) -> Shape:
    return centred(("".join(dot * mosaic.across for dot in mark),), len(letter[0]))


def _lower(letter: Shape) -> Shape:
    """A row of five is left out, one that is as its neighbour if there is any."""
    gone = next((at for at in range(1, CAP) if letter[at] == letter[at - 1]), CAP - 2)
    return (*letter[:gone], *letter[gone + 1 :])


def _signs(text: str, mosaic: Mosaic) -> Sequence[str]:
    """What the text is drawn in."""
    if text.isascii():
        return text.upper()

    def has(sign: str) -> bool:
        return _shape(sign, mosaic, narrow=False) is not None

    composed = unicodedata.normalize("NFC", text)
    return spelled("".join(one if one in _AS_IT_IS else one.upper() for one in composed), has)


def _shapes(text: str, mosaic: Mosaic, *, narrow: bool) -> list[Shape | None]:
    return [_shape(sign, mosaic, narrow=narrow) for sign in _signs(text, mosaic)]


def can_draw(text: str, mosaic: Mosaic) -> bool:
    """Whether there is a shape for every letter, or for what stands for it."""
    if text.isascii():
        return text.isprintable()  # all of those have one
    return None not in _shapes(text, mosaic, narrow=False)


def dots(text: str, mosaic: Mosaic, scale: int = 1, *, narrow: bool = False) -> Shape:
    """The text as rows of dots, `scale` times as large; what has no shape is left out."""
    shapes = [shape for shape in _shapes(text, mosaic, narrow=narrow) if shape]
    gap = "." * mosaic.across
    rows = [gap.join(parts) for parts in zip(*shapes, strict=True)] or [""] * HEIGHT
    return tuple("".join(dot * scale for dot in row) for row in rows for _ in range(scale))


@lru_cache(maxsize=4096)
def text_width(text: str, mosaic: Mosaic, scale: int = 1, *, narrow: bool = False) -> int:
    """Columns that the text takes."""
    wide = [len(shape[0]) for shape in _shapes(text, mosaic, narrow=narrow) if shape]
    between = mosaic.across * max(0, len(wide) - 1)
    return -(-(sum(wide) + between) * scale // mosaic.across)


@lru_cache(maxsize=1024)
def draw_text(
    text: str, ink: str, ground: str, mosaic: Mosaic, scale: int = 1, *, narrow: bool = False
) -> Drawing:
    """The text in cells, three rows high, times the scale."""
    return from_dots(dots(text, mosaic, scale, narrow=narrow), mosaic, ink, ground)


def draw_label(text: str, ink: str, ground: str, mosaic: Mosaic) -> Drawing:
    """Narrow capitals and digits three rows high, with a dot's room above, for a block."""
    return from_dots(("", *dots(text, mosaic, narrow=True)[:CAP]), mosaic, ink, ground)
