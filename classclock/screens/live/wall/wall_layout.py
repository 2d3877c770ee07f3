"""Where clock, heading and lanes stand: found once for a piece, whatever is tapped in it.

The heading is given a box here and laid out in it by itself, so that a word that comes and goes
(HELD, ALL IN) moves no lane.
"""

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.layout.nodes import Box, Spot, Spots
from classclock.screens.canvas.least_size import LEAST_COLUMNS, LEAST_ROWS
from classclock.screens.canvas.letters.dot_type import ROWS as DRAWN
from classclock.screens.live.wall.heading import usual
from classclock.screens.live.wall.lane_grid import usual_lane
from classclock.screens.live.wall.wall_choice import LARGEST, arranged_wall
from classclock.tally.lineup import MOST_LANES
from classclock.wall.lane_content import LaneContent
from classclock.wall.wall_content import WallContent

_MARGIN = 1
"""Columns free at both sides, and before a lane for its key's cap."""
NOWHERE = Spot(Box(0, 0, 0, 0))
"""Of what not even the least stands."""


class LaneLayout(Struct, frozen=True):
    """One lane's parts, from its own upper left corner; None is what there is no room for."""

    width: int
    rows: int
    key: Spot
    name: Spot
    tally: Spot | None = None
    start: Spot | None = None
    rung: Spot | None = None
    load: Spot | None = None
    unit: Spot | None = None
    plates: Spot | None = None
    made: Spot | None = None
    ribbon: Spot | None = None
    """Beside the tally, or under all of it."""
    notes: Spot | None = None


class WallLayout(Struct, frozen=True):
    """The wall in a view of so many columns and rows."""

    clock: Spot
    heading: Box
    most: int
    """Rows up to which letters in the heading may be high."""
    lane: LaneLayout | None = None
    corners: tuple[tuple[int, int], ...] = ()
    """Each lane's upper left corner."""
    sizes: tuple[tuple[str, int], ...] = ()
    """How large each group came out, in rows."""


def lay_out_wall(
    content: WallContent,
    lanes: Sequence[LaneContent],
    columns: int,
    rows: int,
    measure: CellMeasure,
) -> WallLayout:
    """The wall for 1 to 26 lanes, or for none: then the clock has it to itself.

    ValueError for more lanes: they run in heats.
    """
    if len(lanes) > MOST_LANES:
        raise ValueError(f"The wall holds 1 to {MOST_LANES} lanes; run more in heats.")
    # In a smaller window stands what it lacks; the foot has a row of its own.
    large = max(columns, LEAST_COLUMNS), max(rows, LEAST_ROWS - 1)
    return _laid_out(usual(content), tuple(map(usual_lane, lanes)), *large, measure)


@lru_cache(maxsize=8)
def _laid_out(
    content: WallContent,
    lanes: tuple[LaneContent, ...],
    columns: int,
    rows: int,
    measure: CellMeasure,
) -> WallLayout:
    arranged = arranged_wall(content, lanes, columns - 2 * _MARGIN, rows, measure)
    spots = {name: _moved(spot, _MARGIN, 0) for name, spot in arranged.spots.items()}
    clock = spots.get("clock", NOWHERE)
    wide = measure.columns(content.clock, max(1, clock.size))
    return WallLayout(
        clock=clock._replace(box=clock.box._replace(width=min(wide, clock.box.width))),
        heading=spots.get("heading", NOWHERE).box,
        most=most_in_heading(arranged.sizes["clock"]),
        lane=_lane(spots) if lanes else None,
        corners=tuple(_corner(spots, n, rows) for n in range(len(lanes))),
        sizes=tuple(arranged.sizes.items()),
    )


def most_in_heading(clock: int) -> int:
    """Rows of letters beside a clock of so many: as in lanes, or drawn where that is smaller still.

    HELD, TIME and ALL IN are no lane's: to be under the clock's size is enough for them.
    """
    return max(int(clock / LARGEST), min(DRAWN, clock - 1), 1)


def _corner(spots: Spots, lane: int, rows: int) -> tuple[int, int]:
    """A lane that was cut off is under the last row."""
    spot = spots.get(("lane", lane))
    return (spot.box.x - _MARGIN, spot.box.y) if spot is not None else (0, rows)


def _lane(spots: Spots) -> LaneLayout:
    """The parts of the first lane: those of the others stand alike."""
    box = spots["lane", 0].box

    def part(name: str) -> Spot | None:
        found = spots.get((name, 0))
        return found and _moved(found, _MARGIN - box.x, -box.y)

    return LaneLayout(
        width=box.width + _MARGIN,
        rows=box.height,
        key=part("key") or NOWHERE,
        name=part("name") or NOWHERE,
        tally=part("tally"),
        start=part("start"),
        rung=part("rung"),
        load=part("load"),
        unit=part("unit"),
        plates=part("plates"),
        made=part("made"),
        ribbon=part("ribbon"),
        notes=part("notes"),
    )


def _moved(spot: Spot, right: int, down: int) -> Spot:
    box = spot.box
    return spot._replace(box=box._replace(x=box.x + right, y=box.y + down))
