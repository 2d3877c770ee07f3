"""What can be read in a picture of the wall, sharp and as an eye ten metres away has it.

Who reads is tesseract, which knows nothing of our letters. A key or a tally, which are too short
for it, is taken for that one of our own signs, drawn by ourselves, which is nearest.
"""

import subprocess
from string import ascii_letters, ascii_uppercase, digits
from tempfile import NamedTemporaryFile

from msgspec import Struct
from PIL import Image, ImageChops, ImageOps, ImageStat

from classclock.machine.terminal import ALL, Terminal
from classclock.screens.canvas.cells import Drawing, Side
from classclock.screens.canvas.look import Look
from pictures.svg import block
from pictures.terminals.wall import Facts, Place

FROM_AFAR = (418, 235)
"""Minutes of arc that a 55-inch TV takes ten metres away; an eye tells about one from the next."""
_ENLARGED = 6
_MARGIN = 40
_CELL = (20, 48)
"""Pixels in which a cell of our own is drawn: halves, thirds and quarters of it are whole ones."""
_HIGHEST = 240
_FAINT = 40
"""Of 255 shades."""


class Read(Struct, frozen=True):
    """How many of each were read, and what was read otherwise."""

    clock: bool
    names: tuple[int, int]
    keys: tuple[int, int]
    tallies: tuple[int, int]
    otherwise: tuple[str, ...]


class Eye(Struct, frozen=True):
    """Looks at a picture of the whole wall from close by, or so far off that it is `FROM_AFAR`."""

    picture: Image.Image
    facts: Facts
    far: bool

    def read(self) -> Read:
        """Read what the facts say stands there."""
        said = {
            what: [(place.text.casefold(), self._said(place)) for place in self._places(what)]
            for what in ("clock", "name", "key", "tally")
        }
        right = {what: sum(one == other for one, other in said[what]) for what in said}
        counts = {what: (right[what], len(said[what])) for what in said}
        return Read(
            counts["clock"] == (1, 1),
            counts["name"],
            counts["key"],
            counts["tally"],
            tuple(
                f"{text}: {seen or '-'}"
                for pairs in said.values()
                for text, seen in pairs
                if text != seen
            ),
        )

    def seen(self, picture: Image.Image) -> Image.Image:
        """A part of the wall as this eye has it, as large as a reader needs it."""
        if not self.far:
            return picture
        whole = self.picture.size
        wide = max(1, round(picture.width * FROM_AFAR[0] / whole[0]))
        high = max(1, round(picture.height * FROM_AFAR[1] / whole[1]))
        told = picture.resize((wide, high), Image.Resampling.BOX)
        return told.resize((wide * _ENLARGED, high * _ENLARGED), Image.Resampling.BICUBIC)

    def _places(self, what: str) -> list[Place]:
        return [place for place in self.facts.places if place.what == what]

    def _said(self, place: Place) -> str:
        across = self.picture.width / self.facts.columns
        down = self.picture.height / self.facts.rows
        box = (
            round(place.x * across),
            round(place.y * down),
            round((place.x + place.width) * across),
            round((place.y + place.height) * down),
        )
        grey = self.picture.crop(box).convert("L")
        if place.what in ("key", "tally"):
            return self._nearest(grey, place)
        return _by_tesseract(self.seen(grey), place.text, clock=place.what == "clock")

    def _nearest(self, grey: Image.Image, place: Place) -> str:
        """Which of all keys, or of all tallies of as many signs, it looks most like."""
        signs = list(ascii_uppercase) if place.what == "key" else _alike(place.text)
        seen = _full_contrast(self.seen(grey))
        if seen is None:
            return ""
        drawn = {}
        for sign in signs:
            own = self._own(sign, place).resize(grey.size, Image.Resampling.BOX)
            drawn[sign] = _full_contrast(self.seen(own)) or own
        return min(drawn, key=lambda sign: _apart(seen, drawn[sign])).casefold()

    def _own(self, sign: str, place: Place) -> Image.Image:
        """As we draw it, in its box, in white on black."""
        colours = ALL if self.facts.colours > 16 else 16
        terminal = Terminal(colours, self.facts.dots or None)  # type: ignore[arg-type]
        look = Look(terminal=terminal).on("#000000", "#ffffff")
        air = max(1, place.height - 3) if place.height > 3 else 0  # as in a lane
        drawn = look.letters(sign, place.width, place.height, air=air)
        across: Side = "middle" if place.what == "key" else "right"
        return _picture(look.box(drawn, place.width, place.height, across=across))


def _alike(tally: str) -> list[str]:
    """The tally, and those that differ from it in one digit."""
    others = [
        tally[:at] + other + tally[at + 1 :]
        for at, sign in enumerate(tally)
        if sign in digits
        for other in digits
    ]
    return list(dict.fromkeys([tally, *others]))


def _by_tesseract(grey: Image.Image, text: str, *, clock: bool) -> str:
    """What this light text says to it as a line or as a word; only letters, or those of a clock."""
    dark = ImageOps.expand(ImageOps.invert(grey), _MARGIN, fill=255)
    if dark.height > _HIGHEST:  # it is made for the text of a page
        dark = dark.resize((dark.width * _HIGHEST // dark.height, _HIGHEST))
    allowed = "0123456789:" if clock else ascii_letters
    said = []
    with NamedTemporaryFile(suffix=".png") as file:
        dark.save(file.name)
        for way in ("7", "8"):
            command = ["tesseract", file.name, "-", "--psm", way, "-l", "eng"]
            command += ["-c", f"tessedit_char_whitelist={allowed}"]
            done = subprocess.run(command, capture_output=True, check=True, text=True)
            said.append("".join(done.stdout.split()).casefold())
    return text.casefold() if text.casefold() in said else "/".join(said)


def _picture(drawing: Drawing) -> Image.Image:
    """A drawing's cells as they should look."""
    columns = sum(segment.cell_length for segment in drawing[0])
    wide, high = _CELL
    picture = Image.new("L", (columns * wide, len(drawing) * high))
    for y, row in enumerate(drawing):
        x = 0
        for segment in row:
            ink, ground = _light(segment.style, "color"), _light(segment.style, "bgcolor")
            for sign in segment.text:
                picture.paste(ground, (x, y * high, x + wide, (y + 1) * high))
                for left, top, width, height in block(sign) or ():
                    corner = round(x + left * wide), round((y + top) * high)
                    size = round(width * wide), round(height * high)
                    picture.paste(ink, (*corner, corner[0] + size[0], corner[1] + size[1]))
                x += wide
    return picture


def _light(style: object, which: str) -> int:
    colour = getattr(style, which, None)
    return 0 if colour is None else int(colour.get_truecolor().red)


def _full_contrast(grey: Image.Image) -> Image.Image | None:
    """From black to white; None where nothing stands out from its ground."""
    least, most = map(int, grey.getextrema())  # type: ignore[arg-type]  # of one band
    if most - least < _FAINT:
        return None
    return grey.point([255 * max(0, light - least) // (most - least) for light in range(256)])


def _apart(one: Image.Image, other: Image.Image) -> float:
    return float(ImageStat.Stat(ImageChops.difference(one, other)).sum2[0])
