"""Characters that split a cell into a small grid of dots, and pictures made of them.

A cell is taken as twice as high as it is wide, as in most terminal fonts. The characters are
Unicode's Block Elements (U+2580 to U+259F) and, for sextants, Symbols for Legacy Computing
(U+1FB00 to U+1FB3B).
"""

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from itertools import product
from typing import TypeVar

from msgspec import Struct
from rich.segment import Segment

from classclock.screens.canvas.cells import Drawing, style
from classclock.units.cell_dots import SIZES, CellDots

Dot = TypeVar("Dot")

_QUADRANTS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"


class Mosaic(Struct, frozen=True):
    """How many dots a cell has across and down, and its characters by the sum of the lit dots.

    The dots count 1, 2, 4, ... from the left and from the top.
    """

    across: int
    down: int
    characters: str


def _sextants() -> str:
    # Those that are also block elements (none, left, right, all) were not encoded a second time.
    known = {0: " ", 21: "▌", 42: "▐", 63: "█"}
    new = iter(range(0x1FB00, 0x1FB3C))
    return "".join(known.get(lit) or chr(next(new)) for lit in range(64))


HALVES = Mosaic(*SIZES["halves"], " ▀▄█")
QUADRANTS = Mosaic(*SIZES["quadrants"], _QUADRANTS)
SEXTANTS = Mosaic(*SIZES["sextants"], _sextants())
MOSAICS: dict[CellDots, Mosaic] = {
    "halves": HALVES,
    "quadrants": QUADRANTS,
    "sextants": SEXTANTS,
}
SIGNS = Mosaic(1, 1, " #")
"""For terminals that know ASCII only."""


@lru_cache(maxsize=4)
def _by_dots(mosaic: Mosaic) -> dict[tuple[bool, ...], str]:
    """A cell's character by its dots, from the left and from the top."""
    dots = product((False, True), repeat=mosaic.across * mosaic.down)
    return {
        lit: mosaic.characters[sum(1 << number for number, dot in enumerate(lit) if dot)]
        for lit in dots
    }


def from_dots(dots: Sequence[str], mosaic: Mosaic, ink: str, ground: str) -> Drawing:
    """A picture of rows of dots, lit where the sign is `#`; filled up to whole cells."""
    across, down, character = mosaic.across, mosaic.down, _by_dots(mosaic)
    columns = -(-max(map(len, dots), default=0) // across)
    wide = [[sign == "#" for sign in row.ljust(columns * across)] for row in dots]
    wide += [[False] * columns * across] * (-len(dots) % down)
    rows = (cells_of(wide[row : row + down], across) for row in range(0, len(wide), down))
    drawn = ("".join(map(character.__getitem__, cells)) for cells in rows)
    return tuple((Segment(text, style(ink, ground)),) if text else () for text in drawn)


def cells_of(lines: Sequence[Sequence[Dot]], across: int) -> Iterator[tuple[Dot, ...]]:
    """The dots of each cell of a row, from the rows of dots that it is high."""
    return zip(*(line[column::across] for line in lines for column in range(across)), strict=True)


@lru_cache(maxsize=4)
def tones_of_cells(mosaic: Mosaic) -> Callable[[tuple[int, ...]], tuple[str, tuple[int, int]]]:
    """`two_tones` in this mosaic, kept: a word has the same cells over and over."""

    @lru_cache(maxsize=8192)
    def toned(shares: tuple[int, ...]) -> tuple[str, tuple[int, int]]:
        character, ink, ground = two_tones(shares, mosaic)
        return character, (ink, ground)

    return toned


def two_tones(shares: tuple[int, ...], mosaic: Mosaic) -> tuple[str, int, int]:
    """The character, its ink's and its ground's share that come nearest to a cell's dots.

    `shares` is how much of each dot is covered, on any scale from 0. A cell has two colours only:
    the dots are parted where that leaves the least squared error, which is where the sum of each
    part's (total squared / number) is greatest.
    """
    number, total = len(shares), sum(shares)
    if shares.count(shares[0]) == number:  # most cells, and those need no search
        return " ", 0, shares[0]
    lit, ink, most, least = 0, 0, total * total / number, 0
    place, above = 0, 0
    for level in sorted(set(shares), reverse=True)[:-1]:
        alike = shares.count(level)
        place += alike
        above += alike * level
        explained = above * above / place + (total - above) ** 2 / (number - place)
        if explained > most:
            lit, ink, most, least = place, above, explained, level
    if not lit:
        return " ", 0, round(total / number)
    sign = sum(1 << dot for dot, share in enumerate(shares) if share >= least)
    return mosaic.characters[sign], round(ink / lit), round((total - ink) / (number - lit))
