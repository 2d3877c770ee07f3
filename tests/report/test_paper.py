"""How much room text takes on paper: whole words, never less than they need."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.report.paper import LONG_SIDE, POINT, SHORT_SIDE, ems, lines_of


def test_a_sheet_of_a4_is_as_the_standard_says() -> None:
    # ISO 216: 210 mm x 297 mm; a point is 1/72 inch of 25.4 mm.
    assert (SHORT_SIDE, LONG_SIDE) == (210, 297)
    assert pytest.approx(25.4) == 72 * POINT


def test_an_accent_takes_no_room_and_a_wide_sign_two_cells() -> None:
    assert ems("é") == ems("e")
    assert ems("美") == 1
    assert ems("Ю") > ems("e")


def test_parts_stand_whole_in_lines() -> None:
    digit = ems("0")
    assert lines_of(("00", "00"), 6 * digit) == 1
    assert lines_of(("000", "000"), 6 * digit) == 2  # the space between them finds no room
    assert lines_of(("0" * 13,), 6 * digit) == 3
    assert lines_of(("00 00 00",), 5 * digit) == 2
    assert lines_of((), 1) == 1


@given(st.lists(st.text("0 ", min_size=1, max_size=20), max_size=8), st.floats(1, 40))
def test_lines_hold_all_that_stands_in_them(parts: list[str], wide: float) -> None:
    lines = lines_of(tuple(parts), wide)
    ink = sum(ems(part.replace(" ", "")) for part in parts)
    assert lines * wide >= ink - 1e-6
    assert lines_of(tuple(parts), wide * 2) <= lines
