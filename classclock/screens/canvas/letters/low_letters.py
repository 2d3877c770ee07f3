"""Capitals five dots high for cells that are two dots high: three rows hold them and an accent.

Half blocks have a shape of their own, four dots wide and in a narrow box three (low_letters.txt).
Quadrants, twice as fine across, take the dot letter's, from which two of seven rows are left out.
Small letters come out as capitals: five dots are too few for them.
"""

import unicodedata
from functools import cache, lru_cache
from pathlib import Path

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.letters import dot_letters
from classclock.screens.canvas.letters.dot_shapes import Shape, centred, read_shapes
from classclock.screens.canvas.letters.mosaic import HALVES, Mosaic, from_dots

CAP = 5
"""Dots from the top of a capital to the line it stands on."""
HEIGHT = 6
"""Dots with an accent, which is over the letter or below it."""
_KEPT_ROWS = (
    dict.fromkeys("GS37", (0, 2, 3, 4, 6))
    | dict.fromkeys("QRVWZ", (0, 1, 3, 5, 6))
    | {"2": (0, 2, 3, 5, 6), "5": (0, 1, 2, 4, 6)}
)
"""Of the dot letter's seven those that tell this one from others."""
_USUAL_ROWS = (0, 1, 3, 4, 6)

_OVER = {
    "\u0300": "##..",  # grave
    "\u0301": "..##",  # acute
    "\u0302": ".##.",  # circumflex
    "\u0303": "##.#",  # tilde
    "\u0304": "####",  # macron
    "\u0306": "#..#",  # breve
    "\u0307": ".##.",  # dot
    "\u0308": "#..#",  # diaeresis
    "\u030a": ".##.",  # ring
    "\u030b": "#.##",  # double acute
    "\u030c": "#.##",  # caron
}
_UNDER = {
    "\u0326": ".#..",  # comma
    "\u0327": ".##.",  # cedilla
    "\u0328": "..##",  # ogonek
}


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
    below = shape[dot_letters.CAP] if character in ",;" else "." * len(shape[0])
    return (*(shape[at] for at in _KEPT_ROWS.get(character, _USUAL_ROWS)), below)


@lru_cache(maxsize=1024)
def _shape(character: str, mosaic: Mosaic, *, narrow: bool) -> Shape | None:
    base, *marks = list(unicodedata.normalize("NFD", character))
    letter = _plain(base, mosaic, narrow=narrow)
    if letter is None or not marks:
        return letter
    if len(marks) > 1:
        return None
    (mark,) = marks
    if mark in _OVER:
        return (*_placed(_OVER[mark], letter, mosaic), "." * len(letter[0]), *_lower(letter[:CAP]))
    if mark in _UNDER:
        return (*letter[:CAP], *_placed(_UNDER[mark], letter, mosaic))
    return None


def _placed(mark: str, letter: Shape, mosaic: Mosaic) -> Shape:
    return centred(("".join(dot * mosaic.across for dot in mark),), len(letter[0]))


def _lower(letter: Shape) -> Shape:
    """A row of five is left out, one that is as its neighbour if there is any."""
    gone = next((at for at in range(1, CAP) if letter[at] == letter[at - 1]), CAP - 2)
    return (*letter[:gone], *letter[gone + 1 :])


def _shapes(text: str, mosaic: Mosaic, *, narrow: bool) -> list[Shape | None]:
    capitals = unicodedata.normalize("NFC", unicodedata.normalize("NFC", text).upper())
    return [_shape(character, mosaic, narrow=narrow) for character in capitals]


def can_draw(text: str, mosaic: Mosaic) -> bool:
    """Whether there is a shape, or a letter and one accent, for every character."""
    return None not in _shapes(text, mosaic, narrow=False)


def dots(text: str, mosaic: Mosaic, scale: int = 1, *, narrow: bool = False) -> Shape:
    """The text as rows of dots, `scale` times as large; unknown characters are left out."""
    shapes = [shape for shape in _shapes(text, mosaic, narrow=narrow) if shape]
    gap = "." * mosaic.across
    rows = [gap.join(parts) for parts in zip(*shapes, strict=True)] or [""] * HEIGHT
    return tuple("".join(dot * scale for dot in row) for row in rows for _ in range(scale))


@lru_cache(maxsize=4096)
def text_width(text: str, mosaic: Mosaic, scale: int = 1, *, narrow: bool = False) -> int:
    """Columns that the text takes."""
    return -(-len(dots(text, mosaic, scale, narrow=narrow)[0]) // mosaic.across)


@lru_cache(maxsize=1024)
def draw_text(
    text: str, ink: str, ground: str, mosaic: Mosaic, scale: int = 1, *, narrow: bool = False
) -> Drawing:
    """The text in cells, three rows high, times the scale."""
    return from_dots(dots(text, mosaic, scale, narrow=narrow), mosaic, ink, ground)


def draw_label(text: str, ink: str, ground: str, mosaic: Mosaic) -> Drawing:
    """Narrow capitals and digits three rows high, with a dot's room above, for a block."""
    return from_dots(("", *dots(text, mosaic, narrow=True)[:CAP]), mosaic, ink, ground)
