"""An eye that knows nothing of our letters: close to the TV, or ten metres away.

Text is read by tesseract. A key or a tally, too short for it, is taken for that one of our own
signs which it looks most like.
"""

import subprocess
from collections.abc import Iterable, Sequence
from pathlib import Path
from string import ascii_letters, ascii_uppercase, digits
from tempfile import TemporaryDirectory

from PIL import Image, ImageChops, ImageOps, ImageStat

FROM_AFAR = (418, 235)
"""Minutes of arc that a 55-inch TV takes ten metres away; an eye tells about one from the next."""
ENLARGED = 6
_MARGIN = 40
_HIGHEST = 240
_FAINT = 40
"""Of 255 shades."""
_WAYS = ("7", "8")
"""Tesseract's: a line, a word."""
Box = tuple[float, float, float, float]
"""Left, top, right and bottom, as shares of the whole screen."""


def from_afar(screen: Image.Image) -> Image.Image:
    """The whole screen, a pixel for each minute of arc."""
    return screen.convert("L").resize(FROM_AFAR, Image.Resampling.BOX)


def part(screen: Image.Image, box: Box, *, far: bool) -> Image.Image:
    """A part of a screen, from afar as large as a reader needs it."""
    wide, high = screen.size
    left, top, right, bottom = (
        round(share * of) for share, of in zip(box, (wide, high, wide, high), strict=True)
    )
    cut = screen.crop((left, top, max(right, left + 1), max(bottom, top + 1)))
    if not far:
        return cut
    return cut.resize((cut.width * ENLARGED, cut.height * ENLARGED), Image.Resampling.BICUBIC)


def read_all(parts: Sequence[tuple[Image.Image, str]]) -> list[str]:
    """What is read in each, beside what stands there: that, or what it was taken for.

    Letter case and spaces don't count.
    """
    said: list[list[str]] = [[] for _ in parts]
    kinds = {text: _allowed(text) for _, text in parts}
    for allowed in dict.fromkeys(kinds.values()):
        those = [at for at, (_, text) in enumerate(parts) if kinds[text] == allowed]
        dark = [_dark(parts[at][0]) for at in those]
        for way in _WAYS:
            for at, words in zip(those, _by_tesseract(dark, way, allowed), strict=True):
                said[at].append(words)
    return [
        squeezed(text) if squeezed(text) in words else "/".join(words)
        for (_, text), words in zip(parts, said, strict=True)
    ]


def squeezed(text: str) -> str:
    """Without spaces and case."""
    return "".join(text.split()).casefold()


def _allowed(text: str) -> str:
    """Signs that may stand there: those of a clock, a name's, or a name's and digits."""
    if not any(sign.isalpha() for sign in text):
        return "0123456789:"
    others = "".join(sorted({sign for sign in text if not sign.isalnum() and not sign.isspace()}))
    return ascii_letters + (digits if any(sign.isdigit() for sign in text) else "") + others


def _dark(light: Image.Image) -> Image.Image:
    dark = ImageOps.expand(ImageOps.invert(light.convert("L")), _MARGIN, fill=255)
    if dark.height > _HIGHEST:  # it is made for the text of a page
        dark = dark.resize((dark.width * _HIGHEST // dark.height, _HIGHEST))
    return dark


def _by_tesseract(pictures: Iterable[Image.Image], way: str, allowed: str) -> list[str]:
    """Each picture's text; one process reads all, since it takes long to start."""
    with TemporaryDirectory() as folder:
        paths = []
        for number, one in enumerate(pictures):
            path = Path(folder) / f"{number}.png"
            one.save(path)
            paths.append(str(path))
        names = Path(folder) / "all.txt"
        names.write_text("\n".join(paths), "utf-8")
        command = ["tesseract", str(names), "-", "--psm", way, "-l", "eng"]
        command += ["-c", f"tessedit_char_whitelist={allowed}"]
        done = subprocess.run(command, capture_output=True, check=True, text=True)
    return [squeezed(page) for page in done.stdout.split("\f")[: len(paths)]]


def alike(text: str) -> list[str]:
    """All that this may be taken for: any key, or numbers that differ from it in one digit."""
    if text.isalpha():
        return list(ascii_uppercase)
    others = [
        text[:at] + other + text[at + 1 :]
        for at, sign in enumerate(text)
        if sign in digits
        for other in digits
    ]
    return list(dict.fromkeys([text, *others]))


def nearest(seen: Image.Image, drawn: dict[str, Image.Image]) -> str:
    """Which of these it looks most like; nothing where nothing stands out. All of one size."""
    clear = _full_contrast(seen)
    if clear is None:
        return ""
    clearly = {sign: _full_contrast(own) or own for sign, own in drawn.items()}
    return min(clearly, key=lambda sign: _apart(clear, clearly[sign]))


def _full_contrast(grey: Image.Image) -> Image.Image | None:
    """From black to white; None where nothing stands out from its ground."""
    least, most = map(int, grey.getextrema())  # type: ignore[arg-type]  # of one band
    if most - least < _FAINT:
        return None
    return grey.point([255 * max(0, light - least) // (most - least) for light in range(256)])


def _apart(one: Image.Image, other: Image.Image) -> float:
    return float(ImageStat.Stat(ImageChops.difference(one, other)).sum2[0])
