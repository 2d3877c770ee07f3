"""A screen's cells as a picture: block graphics to the dot, all else in a monospaced font."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from pathlib import Path

from PIL import Image, ImageColor, ImageDraw, ImageFont
from rich.segment import Segment
from rich.style import Style

from pictures.svg import Rect, block

WHOLE = (1920, 1080)
"""Pixels of the TV."""
_FONTS = Path("/usr/share/fonts/truetype/dejavu")
FONT, BOLD = _FONTS / "DejaVuSansMono.ttf", _FONTS / "DejaVuSansMono-Bold.ttf"
"""Debian's fonts-dejavu-core."""
_ADVANCE, _LINE = 0.602, 1.164
"""Of DejaVu Sans Mono, as shares of its size: a sign's width, a line's height."""
_INK, _GROUND = "#ffffff", "#000000"


def picture(
    rows: Sequence[Iterable[Segment]], columns: int, size: tuple[int, int] = WHOLE
) -> Image.Image:
    """The screen in shades of grey, spread over so many pixels whatever its rows and columns."""
    canvas = _Canvas(Image.new("L", size), size[0] / columns, size[1] / len(rows))
    for y, row in enumerate(rows):
        x = 0
        for text, style, _ in row:
            for sign in text:
                canvas.sign(sign, x, y, style)
                x += 1
    return canvas.image


class _Canvas:
    """Cells of so many pixels, and parts of one."""

    def __init__(self, image: Image.Image, wide: float, high: float) -> None:
        self.image, self._wide, self._high = image, wide, high
        self._pen = ImageDraw.Draw(image)

    def sign(self, sign: str, x: int, y: int, style: Style | None) -> None:
        ink, ground = shades(style)
        self._fill((x, y, 1, 1), ground)
        rectangles = block(sign)
        if rectangles is not None:
            for left, top, width, height in rectangles:
                self._fill((x + left, y + top, width, height), ink)
        elif not sign.isspace():
            self._write(sign, x, y, ink, bold=bool(style and style.bold))

    def _write(self, sign: str, x: int, y: int, ink: int, *, bold: bool) -> None:
        font = _font(round(self._wide, 2), round(self._high, 2), bold=bold)
        over = (self._high - font.size * _LINE) / 2 + font.getmetrics()[0]
        at = ((x + 0.5) * self._wide, y * self._high + over)
        self._pen.text(at, sign, fill=ink, font=font, anchor="ms")

    def _fill(self, part: Rect, light: int) -> None:
        left, top, width, height = part
        box = (
            round(left * self._wide),
            round(top * self._high),
            round((left + width) * self._wide) - 1,
            round((top + height) * self._high) - 1,
        )
        if box[2] >= box[0] and box[3] >= box[1]:
            self._pen.rectangle(box, fill=light)


@lru_cache(maxsize=64)
def _font(wide: float, high: float, *, bold: bool) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(BOLD if bold else FONT, min(wide / _ADVANCE, high / _LINE))


@lru_cache(maxsize=4096)
def shades(style: Style | None) -> tuple[int, int]:
    """How light ink and ground are, 0 to 255."""
    ink, ground = _INK, _GROUND
    if style is not None:
        if style.color is not None and not style.color.is_default:
            ink = style.color.get_truecolor().hex
        if style.bgcolor is not None and not style.bgcolor.is_default:
            ground = style.bgcolor.get_truecolor().hex
        if style.reverse:
            ink, ground = ground, ink
    return grey(ink), grey(ground)


@lru_cache(maxsize=4096)
def grey(colour: str) -> int:
    red, green, blue = ImageColor.getrgb(colour)[:3]
    return round(0.299 * red + 0.587 * green + 0.114 * blue)
