"""Measure outline type's ASCII anew: `python -m tests.screens.canvas.measure_font`."""

from itertools import product

from font_source_sans_pro import font_files_ttf
from msgspec.json import encode
from msgspec.json import format as indented
from PIL import ImageFont

from classclock.screens.canvas.letters.outline_metrics import FILE, SIZE, OutlineMetrics

ASCII = [chr(code) for code in range(0x20, 0x7F)]
FONT = ImageFont.truetype(font_files_ttf["SourceSansProBold"], SIZE)


def measured() -> OutlineMetrics:
    advances = {one: FONT.getlength(one) for one in ASCII}
    kerning = {
        one + other: further
        for one, other in product(ASCII, ASCII)
        if (further := FONT.getlength(one + other) - advances[one] - advances[other])
    }
    boxes = {one: FONT.getbbox(one, anchor="ls") for one in ASCII}
    tops = {one: int(box[1]) for one, box in boxes.items()}
    bottoms = {one: int(box[3]) for one, box in boxes.items()}
    return OutlineMetrics(advances, kerning, tops, bottoms)


if __name__ == "__main__":
    FILE.write_bytes(indented(encode(measured()), indent=0))
