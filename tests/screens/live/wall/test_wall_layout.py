"""Where things stand on the wall, at every size and with every number of lanes."""

from itertools import combinations
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.machine.terminal import ALL, Colours, Terminal
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.layout.nodes import Box, Spot
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import theme_for
from classclock.screens.live.wall.heading import HeadingShown, fitted_heading
from classclock.screens.live.wall.lane_drawing import draw_lane
from classclock.screens.live.wall.wall_choice import LARGEST
from classclock.screens.live.wall.wall_layout import LaneLayout, WallLayout, most_in_heading
from classclock.units.cell_dots import CellDots
from classclock.wall.lane_content import LaneContent, LaneRoom
from tests.screens.live.wall.walls import CONTENT, lane, named, wall_for

columns = st.integers(60, 240)
rows = st.integers(18, 70)
names = st.lists(st.sampled_from(("Jo", "Ilse", "Saoirse", "Wilhelmina Maria")), min_size=1)
few = settings(max_examples=40, deadline=None)
SIZES = [(60, 18), (80, 24), (120, 36), (160, 45), (213, 60)]


def spots(plan: LaneLayout) -> dict[str, Spot]:
    every = ("key", "name", "tally", "start", "rung", "load", "ribbon", "notes")
    return {name: spot for name in every if (spot := getattr(plan, name)) is not None}


def plan_of(wall: WallLayout) -> LaneLayout:
    assert wall.lane is not None
    return wall.lane


def apart(one: Box, other: Box) -> bool:
    return (
        one.x + one.width <= other.x
        or other.x + other.width <= one.x
        or one.y + one.height <= other.y
        or other.y + other.height <= one.y
    )


@few
@given(names.filter(lambda some: len(some) <= 26), columns, rows)
def test_every_lane_stands_within_the_screen_and_over_nothing_else(
    some: list[str], wide: int, high: int
) -> None:
    wall = wall_for(named(some), wide, high)
    plan = plan_of(wall)
    lanes = [Box(x, y, plan.width, plan.rows) for x, y in wall.corners]
    boxes = [wall.clock.box, wall.heading, *lanes]
    assert len(lanes) == len(some)
    for box in boxes:
        assert box.x >= 0
        assert box.y >= 0
        assert box.x + box.width <= wide
        assert box.y + box.height <= high - 1
    assert all(apart(one, other) for one, other in combinations(boxes, 2))


@few
@given(names.filter(lambda some: len(some) <= 26), columns, rows)
def test_the_parts_of_a_lane_stand_within_it_and_apart(
    some: list[str], wide: int, high: int
) -> None:
    plan = plan_of(wall_for(named(some), wide, high))
    boxes = [spot.box for spot in spots(plan).values()]
    for box in boxes:
        assert box.width > 0
        assert box.height > 0
        assert box.x + box.width <= plan.width
        assert box.y + box.height <= plan.rows
    assert all(apart(one, other) for one, other in combinations(boxes, 2))


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("lanes", [1, 4, 8, 12, 20, 26])
def test_the_clock_is_one_and_a_half_times_as_large_as_any_other_text(
    size: tuple[int, int], lanes: int
) -> None:
    wall = wall_for(named(("Ilse",) * lanes), *size)
    for group, high in wall.sizes:
        if group not in ("clock", "ribbon", "notes"):
            assert wall.clock.size >= LARGEST * high, group
    found = fitted_heading(
        HeadingShown(CONTENT, alone=False, most=wall.most),
        wall.heading.width,
        wall.heading.height,
        CellMeasure(Terminal()),
    )
    assert all(wall.clock.size >= LARGEST * high for high in found.sizes.values())


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("lanes", [1, 4, 8, 12, 20, 26])
def test_a_ribbon_has_twenty_columns_or_is_not_shown(size: tuple[int, int], lanes: int) -> None:
    ribbon = plan_of(wall_for(named(("Ilse",) * lanes), *size)).ribbon
    assert ribbon is None or ribbon.box.width >= 20


@pytest.mark.parametrize(
    ("size", "lanes", "least"),
    [
        ((60, 18), 4, 3),
        ((80, 24), 8, 3),
        ((120, 36), 8, 3),
        ((120, 36), 12, 3),
        ((160, 45), 20, 3),
        ((213, 60), 8, 6),
        ((213, 60), 12, 5),
        ((213, 60), 26, 3),
    ],
)
def test_names_keys_tallies_and_movements_of_the_usual_walls_are_so_large(
    size: tuple[int, int], lanes: int, least: int
) -> None:
    some = ("Ilse", "Bram", "Noor", "Piet") * 7
    sizes = dict(wall_for(named(some[:lanes]), *size).sizes)
    assert min(sizes[group] for group in ("key", "name", "tally")) >= least


@pytest.mark.parametrize("lanes", [8, 9, 12])
def test_a_long_name_is_drawn_whole_and_large(lanes: int) -> None:
    some = ("Wilhelmina", *("Ilse",) * (lanes - 1))
    wall = wall_for(named(some), 120, 36)
    plan, measure = plan_of(wall), CellMeasure(Terminal())
    assert plan.name.size >= 3
    assert measure.columns("Wilhelmina", plan.name.size) <= plan.name.box.width


def test_what_a_piece_has_none_of_takes_no_room() -> None:
    plain = plan_of(wall_for(named(("Ilse", "Bram")), 120, 36))
    assert (plain.start, plain.rung, plain.load, plain.plates) == (None, None, None, None)
    said = replace(lane("Ilse"), start="from row", rung="now 4", room=LaneRoom(rung="now 48"))
    full = plan_of(wall_for((said, lane("Bram", "b")), 120, 36))
    lifts = replace(lane("Ilse"), room=LaneRoom(load="102.5", unit="kg", plates="20+5"))
    lifting = plan_of(wall_for((lifts, lane("Bram", "b")), 120, 36))
    for spot in (full.start, full.rung, lifting.load, lifting.plates):
        assert spot is not None
        assert spot.size >= 3


def test_room_is_kept_for_a_long_tally_where_there_is_any() -> None:
    measure = CellMeasure(Terminal())
    plan = plan_of(wall_for(named(("Ilse",) * 4), 213, 60))
    assert plan.tally
    assert plan.tally.box.width >= measure.columns("12+12", plan.tally.size)


@pytest.mark.parametrize("size", [(80, 24), (120, 36), (213, 60)])
@pytest.mark.parametrize("dots", get_args(CellDots))
@pytest.mark.parametrize("colours", [16, 256, ALL])
def test_names_keys_and_tallies_of_a_usual_class_are_drawn_large(
    size: tuple[int, int], dots: CellDots, colours: Colours
) -> None:
    look = Look(theme_for(colours, bright_room=False), Terminal(colours, dots))
    some = ["Ilse", "Bram", "Noor", "Saoirse"]
    plan = plan_of(wall_for(named(some), *size, dots=dots))
    for name in some:
        drawn = plain_text(draw_lane(LaneContent(name[0].lower(), name, "7+12", "7"), plan, look))
        assert name not in drawn
        assert "7" not in drawn


def test_more_lanes_than_letters_are_sent_into_heats() -> None:
    with pytest.raises(ValueError, match="heats"):
        wall_for(named(("Ilse",) * 27), 120, 36)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("word", ["HELD", "TIME", "ALL IN"])
@pytest.mark.parametrize("lanes", [1, 4, 8])
def test_what_everybody_must_know_is_large_wherever_it_is_said(
    size: tuple[int, int], word: str, lanes: int
) -> None:
    wall = wall_for(named(("Ilse",) * lanes), *size)
    said = replace(CONTENT, emphasis=word, hint="space resumes, enter ends it here")
    shown = HeadingShown(said, alone=False, most=wall.most)
    box = wall.heading
    found = fitted_heading(shown, box.width, box.height, CellMeasure(Terminal()))
    narrow = size == (60, 18) and word == "ALL IN"  # six letters beside the clock, on five rows
    assert found.sizes["shout"] >= (1 if narrow else 3)


@pytest.mark.parametrize("size", [(1, 1), (5, 2), (59, 17), (240, 3), (12, 70)])
@pytest.mark.parametrize("lanes", [1, 26])
def test_in_too_small_a_window_it_is_laid_out_as_in_the_least(
    size: tuple[int, int], lanes: int
) -> None:
    """Windows shrink to nothing while somebody drags them; what is lacking is said there."""
    some = named(("Saoirse",) * lanes)
    wide, high = size
    least = wall_for(some, max(60, wide), max(18, high))
    assert wall_for(some, wide, high) == least


@pytest.mark.parametrize(
    ("clock", "most"),
    [(1, 1), (2, 1), (3, 2), (4, 3), (5, 3), (6, 4), (9, 6), (12, 8)],
)
def test_letters_beside_the_clock_are_smaller_and_drawn_if_that_is_possible(
    clock: int, most: int
) -> None:
    assert most_in_heading(clock) == most
