"""Where things stand on the wall, at every size and with every number of lanes."""

from itertools import combinations
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.machine.terminal import ALL, Colours, Terminal
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.layout.nodes import Box
from classclock.screens.canvas.letters.outline_type import text_width
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.theme import theme_for
from classclock.screens.live.wall.lane_drawing import draw_lane
from classclock.screens.live.wall.layout import WallLayout, wall_layout
from classclock.units.cell_dots import CellDots
from classclock.wall.lane_content import LaneContent

walls = st.builds(
    wall_layout,
    st.integers(60, 240),
    st.integers(18, 70),
    st.integers(1, 26),
    name_letters=st.integers(2, 14),
    tally_signs=st.integers(1, 6),
)


def parts(wall: WallLayout) -> dict[str, Box]:
    lane = wall.lane
    named = {
        "key": lane.key,
        "name": lane.name,
        "tally": lane.tally,
        "question": lane.sign,
        "ribbon": lane.ribbon,
        "modification": lane.modification,
        "split": lane.split,
        "projection": lane.projection,
    }
    return {name: box for name, box in named.items() if box}


def apart(one: Box, other: Box) -> bool:
    return (
        one.x + one.width <= other.x
        or other.x + other.width <= one.x
        or one.y + one.height <= other.y
        or other.y + other.height <= one.y
    )


@given(walls)
def test_every_lane_stands_within_the_screen_and_over_nothing_else(wall: WallLayout) -> None:
    lane = wall.lane
    fixed = [wall.clock, wall.heading, wall.status]
    lanes = [Box(x, y, lane.width, lane.rows) for x, y in wall.corners]
    for box in (*fixed, *lanes):
        assert box.x >= 0
        assert box.y >= 0
        assert box.width > 0
        assert box.height > 0
        assert box.x + box.width <= wall.columns
        assert box.y + box.height <= wall.rows
    assert all(apart(one, other) for one, other in combinations([*fixed, *lanes], 2))


@given(walls)
def test_the_parts_of_a_lane_stand_within_it_and_apart(wall: WallLayout) -> None:
    boxes = parts(wall)
    for name, box in boxes.items():
        assert box.width > 0, name
        assert box.height > 0, name
        assert box.x >= 0, name
        assert box.x + box.width <= wall.lane.width, name
        assert box.y + box.height <= wall.lane.rows, name
    assert all(apart(one, other) for one, other in combinations(boxes.values(), 2))


@given(walls)
def test_the_clock_is_the_largest_thing(wall: WallLayout) -> None:
    assert wall.clock.height > wall.lane.type_rows
    assert wall.clock.height >= 3


@given(walls)
def test_the_clock_of_a_long_piece_fits_its_box(wall: WallLayout) -> None:
    # 00:00 and no hours: with hours the type is drawn smaller.
    assert text_width("00:00", wall.clock.height) <= wall.clock.width


@given(walls)
def test_detail_is_dropped_in_the_agreed_order(wall: WallLayout) -> None:
    shown = parts(wall)
    order = ["projection", "split", "modification", "ribbon", "key", "name", "tally"]
    present = [name in shown for name in order]
    assert present == sorted(present)  # once one is shown, all that are dropped later are too


@given(st.integers(60, 240), st.integers(18, 70), st.integers(1, 26))
def test_more_lanes_never_make_letters_larger_in_as_many_columns(
    columns: int, rows: int, lanes: int
) -> None:
    if lanes in (8, 26):
        return
    fewer, more = (wall_layout(columns, rows, count) for count in (lanes, lanes + 1))
    assert more.lane.type_rows <= fewer.lane.type_rows


@given(st.integers(60, 240), st.integers(18, 70), st.integers(1, 26), st.integers(2, 5))
def test_a_full_score_fits_at_least_as_terminal_text(
    columns: int, rows: int, lanes: int, signs: int
) -> None:
    assert wall_layout(columns, rows, lanes, tally_signs=signs).lane.tally.width >= signs


def test_above_eight_lanes_there_are_two_columns() -> None:
    assert len({x for x, _ in wall_layout(120, 36, 8).corners}) == 1
    assert len({x for x, _ in wall_layout(120, 36, 9).corners}) == 2


@pytest.mark.parametrize(
    ("columns", "rows", "lanes", "type_rows"),
    [(120, 36, 8, 3), (120, 36, 12, 3), (120, 36, 26, 1), (213, 60, 8, 5), (213, 60, 12, 5)],
)
def test_the_usual_walls_use_the_letters_they_were_drawn_for(
    columns: int, rows: int, lanes: int, type_rows: int
) -> None:
    assert wall_layout(columns, rows, lanes).lane.type_rows == type_rows


@given(st.integers(60, 240), st.integers(18, 70), st.integers(1, 26), st.integers(3, 9))
def test_letters_of_half_blocks_are_given_up_no_sooner_than_others(
    columns: int, rows: int, lanes: int, letters: int
) -> None:
    finest = wall_layout(columns, rows, lanes, name_letters=letters).lane.type_rows
    for dots in get_args(CellDots):
        wall = wall_layout(columns, rows, lanes, name_letters=letters, dots=dots)
        assert wall.lane.type_rows >= finest


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (120, 36), (213, 60)])
@pytest.mark.parametrize("dots", get_args(CellDots))
@pytest.mark.parametrize("colours", [16, 256, ALL])
def test_names_keys_and_tallies_of_a_usual_class_are_drawn_large(
    columns: int, rows: int, dots: CellDots, colours: Colours
) -> None:
    look = Look(theme_for(colours, bright_room=False), Terminal(colours, dots))
    names = ["Ilse", "Bram", "Noor", "Saoirse"]
    lane = wall_layout(columns, rows, len(names), dots=dots).lane
    for name in names:
        content = LaneContent(name[0].lower(), name, "7+12", "7")
        drawn = plain_text(draw_lane(content, lane, look))
        assert name not in drawn
        assert "7" not in drawn


@pytest.mark.parametrize(("columns", "rows", "lanes"), [(59, 18, 4), (60, 17, 4), (80, 24, 0)])
def test_too_small_a_terminal_or_no_lane_is_refused(columns: int, rows: int, lanes: int) -> None:
    with pytest.raises(ValueError, match="wall"):
        wall_layout(columns, rows, lanes)


def test_more_lanes_than_letters_are_sent_into_heats() -> None:
    with pytest.raises(ValueError, match="heats"):
        wall_layout(120, 36, 27)
