"""Walls laid out for tests, with lanes that say so much and no more."""

from collections.abc import Sequence

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.live.wall.wall_layout import LaneLayout, WallLayout, lay_out_wall
from classclock.units.cell_dots import CellDots
from classclock.wall.lane_bars import Ribbon
from classclock.wall.lane_content import LaneContent
from classclock.wall.wall_content import WallContent

MOVES = ("6 box step-over", "12 bodyweight squat")
CONTENT = WallContent(
    "16:00",
    "Turntable",
    "rounds in 16:00, 18 reps a round",
    stations=MOVES,
    longest_stations=MOVES,
)
RIBBON = Ribbon(960_000, (), 600_000, stopped=False)


def lane(name: str, key: str = "k") -> LaneContent:
    return LaneContent(key, name, "7", "7", bar=RIBBON)


def named(names: Sequence[str]) -> tuple[LaneContent, ...]:
    return tuple(lane(name, chr(ord("a") + n)) for n, name in enumerate(names))


def wall_for(
    lanes: Sequence[LaneContent],
    columns: int,
    rows: int,
    *,
    dots: CellDots | None = "sextants",
    content: WallContent = CONTENT,
) -> WallLayout:
    """In a window of this size, whose last row is the foot's."""
    measure = CellMeasure(Terminal(dots=dots))
    return lay_out_wall(content, lanes, columns, rows - 1, measure)


def lane_layout_for(
    lanes: int,
    columns: int,
    rows: int,
    *,
    name: str = "Saoirse",
    dots: CellDots | None = "sextants",
) -> LaneLayout:
    found = wall_for(named((name,) * lanes), columns, rows, dots=dots).lane
    assert found is not None
    return found
