"""A sheet of A4 and how much of it text takes, before any printer has seen it."""

from functools import lru_cache
from math import ceil
from unicodedata import combining, normalize

from rich.cells import cell_len

SHORT_SIDE, LONG_SIDE = 210.0, 297.0
"""Millimetres of A4 (ISO 216)."""
POINT = 25.4 / 72
"""Millimetres of a point."""

_WIDTHS = (
    (0.278, "ijlI.,/'\u2018\u2019| "),
    (0.333, "ft-!:;()[]"),
    (0.389, "r*"),
    (0.5, 'z"“”'),
    (0.556, "aceksvxyJ0123456789\u2013_"),
    (0.584, "+=<>~"),
    (0.611, "bdghnopquFLTZ?"),
    (0.667, "EPSVXY"),
    (0.722, "ABCDHKNRU&"),
    (0.778, "GOQw"),
    (0.833, "M"),
    (0.889, "m%"),
    (0.944, "W"),
    (1.0, "@—…"),
)
"""Em of Helvetica Bold by the Adobe Core 14 metrics (from memory): as wide as browsers' own."""
_EM = {sign: wide for wide, signs in _WIDTHS for sign in signs}
_OTHER, _TWO_CELLS = 0.722, 1.0
SPACE = _EM[" "]
REGULAR = 0.94
"""How wide regular letters are beside bold ones."""


@lru_cache(maxsize=2000)
def ems(text: str) -> float:
    """About how wide bold letters are, in em."""
    return sum(map(_sign, normalize("NFD", text)))


def _sign(sign: str) -> float:
    if combining(sign):
        return 0.0
    return _EM.get(sign, _TWO_CELLS if cell_len(sign) > 1 else _OTHER)


def lines_of(parts: tuple[str, ...], wide: float) -> int:
    """How many lines these take one after the other, each whole, in a box so many em wide.

    A part that is wider than the box breaks inside.
    """
    lines, left = 0, 0.0
    for part in parts:
        need = ems(part)
        if need <= left:
            left -= need + SPACE
            continue
        words = part.split()
        if need <= wide or len(words) < 2:
            rows = max(1, ceil(need / wide))
            lines, left = lines + rows, rows * wide - need - SPACE
        else:
            lines, left = lines + lines_of(tuple(words), wide), 0.0
    return max(1, lines)
