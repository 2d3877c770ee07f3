"""Large type: an outline font drawn too large and scaled down into cells, smooth if it can be.

Digits, and the signs that stand among them in a clock or a score, are drawn one by one and are of
one width, so that a tick redraws only the digits that changed. They and capitals fill the rows from
top to bottom. Words are drawn whole, with room for what reaches above and below.
"""

from collections.abc import Callable, Iterable
from functools import cache, lru_cache, partial
from itertools import groupby, pairwise
from math import ceil
from operator import itemgetter
from typing import TYPE_CHECKING

from rich.segment import Segment
from rich.style import Style

from classclock.screens.canvas.cells import CellRow, Drawing, beside, style
from classclock.screens.canvas.letters.mosaic import QUADRANTS, Mosaic, cells_of, tones_of_cells
from classclock.screens.canvas.letters.outline_metrics import SIZE, outline_metrics
from classclock.wall.colours.mixing import mix

if TYPE_CHECKING:
    from PIL.ImageFont import FreeTypeFont

_QUICKER = ((15, 80), (30, 160))
"""Up to so many dots a smaller em does: it still has three pixels and a half to a dot."""
_SMALL = 32
"""Large enough to tell a letter from the sign for one that is missing."""
_NUMERIC = frozenset("0123456789:.+-? ")
_FULL = _NUMERIC | frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZ,/%")
_GREYS = 8
"""Steps from the ground to the ink: more are not seen, and fewer cells and colours differ."""
_BELOW_THE_LINE = frozenset("Q,/")
_CRISPER = bytes(
    min(_GREYS, max(0, round(_GREYS * (0.5 + 1.5 * (share / 255 - 0.5))))) for share in range(256)
)
"""Less grey at the edges: strokes end where they cover less than a sixth of a dot."""
_BLACK_OR_WHITE = bytes(_GREYS if share >= 128 else 0 for share in range(256))
"""No grey at all: strokes end where they cover less than half a dot."""


@lru_cache(maxsize=4)
def _font(size: int) -> "FreeTypeFont":
    # Pillow takes a while to import, and an ASCII terminal never needs it.
    import font_source_sans_pro  # noqa: PLC0415
    from PIL import ImageFont  # noqa: PLC0415

    return ImageFont.truetype(font_source_sans_pro.font_files_ttf["SourceSansProBold"], size)


@cache
def _missing() -> bytes:
    return bytes(_font(_SMALL).getmask("\U0010fffd"))


@lru_cache(maxsize=1024)
def _has(character: str) -> bool:
    if character.isascii() or not character.isprintable():
        # It has all of ASCII; at the end of a line Pillow's way of shaping text fails.
        return character.isprintable()
    return bytes(_font(_SMALL).getmask(character)) != _missing()


def can_draw(text: str) -> bool:
    """Whether the font has every character of it."""
    if text.isascii():
        return text.isprintable()
    return all(map(_has, text))


def _is_numeric(text: str) -> bool:
    return _NUMERIC.issuperset(text)


def fills_rows(text: str) -> bool:
    """Whether it is numerals and capitals only, which are drawn from the top to the bottom."""
    return _FULL.issuperset(text)


@lru_cache(maxsize=1024)
def _level(character: str, size: int, *, top: bool) -> int:
    """Where its ink begins or ends, in pixels from the baseline down."""
    if size == SIZE and character.isascii():
        metrics = outline_metrics()
        return (metrics.tops if top else metrics.bottoms)[character]
    return int(_font(size).getbbox(character, anchor="ls")[1 if top else 3])


@lru_cache(maxsize=1024)
def _top(word: str, size: int) -> int:
    return min(_level(character, size, top=True) for character in word)


def _bottom(word: str, size: int) -> int:
    return max(_level(character, size, top=False) for character in word)


def _zones(text: str, size: int = SIZE) -> tuple[int, ...]:
    """The levels, from the top down, that are brought to whole dots so that they come out crisp.

    Numerals and capitals: from the top of a 1 to the line. Words: tall letters, small letters,
    the line, and below it. Round letters reach a little further; that little is cut off.
    """
    if fills_rows(text):
        low = _bottom(text, size) if _BELOW_THE_LINE.intersection(text) else 0
        return _level("1", size, top=True), max(0, low)
    # An accent over a capital makes this one text smaller rather than being cut off.
    top = min([_level("d", size, top=True), *[_top(word, size) for word in text.split()]])
    return top, _level("x", size, top=True), 0, _level("p", size, top=False)


@lru_cache(maxsize=4096)
def _columns_a_row(text: str) -> float:
    """Columns that the text takes for each row that it is high."""
    zones = _zones(text)
    words = text.split(" ")
    long = sum(map(_length, words)) + _length(" ") * (len(words) - 1)
    return long * 2 / (zones[-1] - zones[0])


@lru_cache(maxsize=1024)
def _length(word: str) -> float:
    """Pixels; the font draws nothing closer together over a space."""
    return outline_metrics().length(word) if word.isascii() else _font(SIZE).getlength(word)


def _columns(text: str, rows: int) -> int:
    return max(1, round(_columns_a_row(text) * rows))


def text_width(text: str, rows: int) -> int:
    """Columns that the text takes at this height."""
    if _is_numeric(text):
        return sum(_columns(character, rows) for character in text)
    return _columns(text, rows)


def fit_rows(text: str, max_width: int, max_rows: int) -> int:
    """The largest height at which the text fits the box; 0 if none does."""
    return next((rows for rows in range(max_rows, 0, -1) if text_width(text, rows) <= max_width), 0)


def line_row(text: str, rows: int) -> int:
    """The row, from 0, in which letters of this height end on the line that they stand on."""
    zones = _zones(text)
    return min(rows, ceil(-zones[0] * rows / (zones[-1] - zones[0]))) - 1


def draw_text(
    text: str,
    rows: int,
    ink: str,
    ground: str,
    mosaic: Mosaic = QUADRANTS,
    *,
    air: int = 0,
    shades: bool = True,
) -> Drawing:
    """The text, `rows` high, in ink on ground. The caller asks `can_draw` first.

    The finer the mosaic, the finer the edges: halves, quadrants, sextants. They are smooth with
    `shades` between ink and ground, which then are both `#rrggbb`.
    `air` dots are left free below, for numerals that stand close under each other.
    """
    draw = partial(_draw, rows=rows, ink=ink, ground=ground, mosaic=mosaic, air=air, shades=shades)
    if _is_numeric(text) and text:
        return beside(*map(draw, text))
    return draw(text)


@lru_cache(maxsize=2048)
def _draw(
    text: str, rows: int, ink: str, ground: str, mosaic: Mosaic, *, air: int, shades: bool
) -> Drawing:
    from PIL import Image, ImageDraw  # noqa: PLC0415 - as above

    columns = _columns(text, rows)
    dots_wide, dots_high = columns * mosaic.across, rows * mosaic.down - air
    size = next((size for most, size in _QUICKER if rows * mosaic.down <= most), SIZE)
    font, zones = _font(size), _zones(text, size)
    top, height = zones[0], zones[-1] - zones[0]
    picture = Image.new("L", (max(1, round(font.getlength(text))), height))
    ImageDraw.Draw(picture).text((0, -top), text, 255, font, anchor="ls")
    shares = b"".join(
        picture.resize(
            (dots_wide, after - before),
            Image.Resampling.BOX,
            (0, low - top, picture.width, high - top),
        )
        .tobytes()
        .translate(_CRISPER if shades else _BLACK_OR_WHITE)
        for low, high in pairwise(zones)
        for before, after in [
            (round((low - top) * dots_high / height), round((high - top) * dots_high / height))
        ]
        if after > before
    ) + bytes(air * dots_wide)
    styled = _styles(ink, ground)
    lines = [shares[start : start + dots_wide] for start in range(0, len(shares), dots_wide)]
    return tuple(
        _row(cells_of(lines[row : row + mosaic.down], mosaic.across), mosaic, styled)
        for row in range(0, len(lines), mosaic.down)
    )


def _row(
    cells: Iterable[tuple[int, ...]], mosaic: Mosaic, styled: Callable[[tuple[int, int]], Style]
) -> CellRow:
    """A row of cells by their dots; neighbours of the same two tones become one segment."""
    toned = map(tones_of_cells(mosaic), cells)
    return tuple(
        Segment("".join(map(itemgetter(0), run)), styled(tones))
        for tones, run in groupby(toned, key=itemgetter(1))
    )


@lru_cache(maxsize=64)
def _styles(ink: str, ground: str) -> Callable[[tuple[int, int]], Style]:
    """By the shares of ink that a cell's ink and its ground have, in greys."""

    def tone(share: int) -> str:  # all or nothing may be a colour by its name
        return {0: ground, _GREYS: ink}.get(share) or mix(ground, ink, 255 * share // _GREYS)

    @lru_cache(maxsize=(_GREYS + 1) ** 2)
    def toned(shares: tuple[int, int]) -> Style:
        over, under = map(tone, shares)
        return style(over, under)

    return toned
