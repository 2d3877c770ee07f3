"""Into how many dots a cell can be split, against the characters that Unicode has for it.

Unicode Standard, 22.7: halves and quadrants are Block Elements, sextants Symbols for Legacy
Computing; neither has the patterns anew that were there before, such as the full block.
"""

import re
import unicodedata
from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.units.cell_dots import SIZES, CellDots, rows_of_dots

NAMES = [
    unicodedata.name(chr(code), "") for code in (*range(0x2580, 0x25A0), *range(0x1FB00, 0x1FC00))
]
FULL_OR_EMPTY = 2


@pytest.mark.parametrize(
    ("dots", "named", "older"),
    [
        ("halves", "(UPPER|LOWER) HALF BLOCK", FULL_OR_EMPTY),
        ("quadrants", "QUADRANT .*", FULL_OR_EMPTY + 4),  # the halves of all four sides
        ("sextants", "BLOCK SEXTANT-.*", FULL_OR_EMPTY + 2),  # the left half and the right one
    ],
)
def test_there_is_a_character_for_every_pattern_of_the_dots(
    dots: CellDots, named: str, older: int
) -> None:
    across, down = SIZES[dots]
    patterns = 2 ** (across * down)
    assert sum(re.fullmatch(named, name) is not None for name in NAMES) + older == patterns


def test_the_dots_of_a_sextant_are_numbered_row_by_row() -> None:
    # What has no character of its own is the left half or the right one: the dots of one column.
    across, down = SIZES["sextants"]
    every = [str(dot) for dot in range(1, across * down + 1)]
    columns = ["".join(every[column::across]) for column in range(across)]
    assert columns
    assert not any(f"BLOCK SEXTANT-{column}" in NAMES for column in columns)


@given(st.integers(0, 30), st.sampled_from([down for _, down in SIZES.values()]))
def test_thirds_of_a_row_are_whole_dots_and_one_at_least_of_any(thirds: int, down: int) -> None:
    fit = floor(Fraction(thirds, 3) * down)
    assert rows_of_dots(thirds, down) == (max(fit, 1) if thirds else 0)
