"""Into how many dots a terminal's cell can be split by one character."""

from typing import Literal

CellDots = Literal["halves", "quadrants", "sextants"]
"""The more, the fewer fonts have the characters."""

SIZES: dict[CellDots, tuple[int, int]] = {"halves": (1, 2), "quadrants": (2, 2), "sextants": (2, 3)}
"""Dots across and down."""


def rows_of_dots(thirds: int, down: int) -> int:
    """So many thirds of a row in whole dots, one at least of any: letters need them more."""
    return max(min(thirds, 1), thirds * down // 3)
