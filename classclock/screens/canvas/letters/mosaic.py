"""Characters that split a cell into a small grid of dots, and pictures made of them.

A cell is taken as twice as high as it is wide, as in most terminal fonts. The characters are
Unicode's Block Elements (U+2580 to U+259F) and, for sextants, Symbols for Legacy Computing
(U+1FB00 to U+1FB3B).
"""

from collections.abc import Sequence

from msgspec import Struct

from classclock.screens.canvas.cells import Drawing, row_of
from classclock.units.cell_dots import SIZES, CellDots

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


def _numbers(mosaic: Mosaic) -> tuple[tuple[int, int, int], ...]:
    return tuple(
        (1 << (y * mosaic.across + x), x, y)
        for y in range(mosaic.down)
        for x in range(mosaic.across)
    )


def from_dots(dots: Sequence[str], mosaic: Mosaic, ink: str, ground: str) -> Drawing:
    """A picture of rows of dots, lit where the sign is `#`; filled up to whole cells."""
    columns = -(-max(map(len, dots), default=0) // mosaic.across)
    rows = -(-len(dots) // mosaic.down)
    wide = [row.ljust(columns * mosaic.across) for row in dots]
    wide += [" " * columns * mosaic.across] * (rows * mosaic.down - len(dots))
    return tuple(
        row_of(
            (
                mosaic.characters[
                    sum(
                        number
                        for number, x, y in _numbers(mosaic)
                        if wide[row * mosaic.down + y][column * mosaic.across + x] == "#"
                    )
                ],
                ink,
                ground,
            )
            for column in range(columns)
        )
        for row in range(rows)
    )


def two_tones(shares: tuple[int, ...], mosaic: Mosaic) -> tuple[str, int, int]:
    """The character, its ink's and its ground's share that come nearest to a cell's dots.

    `shares` is how much of each dot is covered, on any scale from 0. A cell has two colours only:
    the dots are parted where that leaves the least squared error, which is where the sum of each
    part's (total squared / number) is greatest.
    """
    number, total = len(shares), sum(shares)
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
