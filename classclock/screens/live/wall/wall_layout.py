"""Where clock, heading and lanes stand: found once for a piece, whatever is tapped in it.

The heading is given a box here and laid out in it by itself, so that a word that comes and goes
(HELD, ALL IN) moves no lane.
"""

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.layout.arrange import Arranged, Trials
from classclock.screens.canvas.layout.nodes import Box, Spot, Spots
from classclock.screens.canvas.layout.parts import (
    Area,
    Arrangement,
    Beside,
    Grid,
    Lead,
    OneOf,
    Stack,
    Written,
)
from classclock.screens.canvas.least_size import LEAST_COLUMNS, LEAST_ROWS
from classclock.screens.live.wall.heading import heading, usual
from classclock.screens.live.wall.lane_grid import lane_grids, usual_lane
from classclock.screens.live.wall.lift_grid import lift_grids, lifting
from classclock.tally.lineup import MOST_LANES
from classclock.wall.lane_content import LaneContent
from classclock.wall.wall_content import WallContent

LARGEST = 1.5
"""How many times as large as any other text the clock is at least."""
_MARGIN = 1
"""Columns free at both sides, and before a lane for its key's cap."""
_CLOCK_SHARE, _CLOCK_ROWS = 5, 5
"""Of the rows the clock has this part at least, and so many, and more as far as there is room."""
_LARGE_SHARE, _LETTER_SHARE = 8, 7
"""From the first part of the rows on other letters are large: words are seen under 21 minutes of
arc from ten metres, on 55 inches. They have the second at most: larger ones would not be read
better, and would push out what else is said."""
_LETTERS = 3
"""Rows of the smallest drawn letters."""

NOWHERE = Spot(Box(0, 0, 0, 0))
"""Of what not even the least stands."""


class LaneLayout(Struct, frozen=True):
    """One lane's parts, from its own upper left corner; None is what there is no room for."""

    width: int
    rows: int
    key: Spot
    name: Spot
    tally: Spot
    start: Spot | None = None
    rung: Spot | None = None
    load: Spot | None = None
    unit: Spot | None = None
    plates: Spot | None = None
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
    arranged = _arranged(content, lanes, columns - 2 * _MARGIN, rows, measure)
    spots = {name: _moved(spot, _MARGIN, 0) for name, spot in arranged.spots.items()}
    clock = spots.get("clock", NOWHERE)
    wide = measure.columns(content.clock, max(1, clock.size))
    return WallLayout(
        clock=clock._replace(box=clock.box._replace(width=min(wide, clock.box.width))),
        heading=spots.get("heading", NOWHERE).box,
        most=max(1, int(arranged.sizes["clock"] / LARGEST)),
        lane=_lane(spots) if lanes else None,
        corners=tuple(_corner(spots, n, rows) for n in range(len(lanes))),
        sizes=tuple(arranged.sizes.items()),
    )


def _arranged(
    content: WallContent,
    lanes: tuple[LaneContent, ...],
    columns: int,
    rows: int,
    measure: CellMeasure,
) -> Arranged:
    """What is shown beside the letters costs them some of their size, but never makes them small.

    A ribbon and a large clock are shown where no text comes to one row for them; notes, and room
    for a long tally, where all letters are as large as without them, or large. Where that is no
    use all stands close together; and where some text is in one row even so, it is rather one that
    is read once than everybody's: then no letters are larger than they are at least.
    """
    most = max(_LETTERS, round(rows / _LETTER_SHARE))
    wished = _wished(content, lanes, rows, most)
    lead = Lead("clock", LARGEST, (*_READ, "title", "caution"))
    trials = Trials((*wished.rich, *wished.plain), columns, rows, measure, lead=lead)
    for plain in wished.plain:
        if (size := trials.smallest(plain)) > 1:
            enough = min(size, rows // _LARGE_SHARE)
            rich = wished.rich if plain is wished.plain[0] else ()
            good = (one for one in rich if trials.smallest(one) >= enough)
            return trials.arranged(next(good, plain))
    ways = [(trials, one) for one in wished.plain[-2:]]
    if lanes:
        close, low = (_close(content, lanes, size) for size in (most, _LETTERS))
        trials = Trials((close, low), columns, rows, measure, lead=lead)
        if trials.smallest(close) > 1:
            return trials.arranged(close)
        ways += [(trials, low)] if trials.alone(low, "name") > 1 else []
    arranged = (trials.arranged(way) for trials, way in ways)
    return min(arranged, key=lambda one: _lacking(one, len(lanes)))


def _lacking(arranged: Arranged, lanes: int) -> tuple[bool, int, int]:
    """Whether it is cut; how many texts of the room aren't there; and are of one row."""
    sizes = [
        size
        for group, size in arranged.sizes.items()
        if group in _READ
        for _ in range(lanes if group in _EACH else 1)
    ]
    return not arranged.whole, sizes.count(0), sizes.count(1)


class _Wished(Struct, frozen=True):
    """The wall with more and more, what is wished for most first; and with less and less."""

    rich: tuple[Arrangement, ...]
    plain: tuple[Arrangement, ...]


def _wished(content: WallContent, lanes: Sequence[LaneContent], rows: int, most: int) -> _Wished:
    """Letters are at most `most` rows high."""
    large, small = _clock(content, _clock_least(rows)), _clock(content, 1)
    if not lanes:
        return _Wished((), (_alone(content, large), _alone(content, small)))
    beside = Area("heading", heading(content, alone=False, most=most, abreast=False))
    grids = (lift_grids if lifting(lanes) else lane_grids)(lanes, most)
    plain = [_with_lanes(large, beside, one) for one in grids.plain]
    return _Wished(
        tuple(_with_lanes(large, beside, one) for one in grids.rich),
        (*plain, _with_lanes(small, beside, grids.plain[-1])),
    )


def _close(content: WallContent, lanes: Sequence[LaneContent], most: int) -> Arrangement:
    beside = Area("heading", heading(content, alone=False, most=most))
    grids = (lift_grids if lifting(lanes) else lane_grids)(lanes, most)
    return _with_lanes(_clock(content, 1), beside, grids.close)


def _clock_least(rows: int) -> int:
    return max(_CLOCK_ROWS, rows // _CLOCK_SHARE)


_EACH = ("key", "name", "tally", "start", "rung", "load", "plates")
"""What every lane has a text of."""
_READ = (*_EACH, "move", "head", "shout", "progress")
"""What the room reads beside the clock."""


def _clock(content: WallContent, least: int) -> Written:
    return Written("clock", content.clock, "clock", matters=100, least=least)


def _with_lanes(clock: Written, beside: Area, under: OneOf | Grid) -> Arrangement:
    return OneOf(
        (
            Stack((Beside((clock, beside), gap=2), under), air=1),
            Beside((Stack((clock, beside), gap=1), under), gap=4),
            Stack((clock, beside, under), air=1),
        )
    )


def _alone(content: WallContent, clock: Written) -> Arrangement:
    below = Area("heading", heading(content, alone=True))
    return OneOf((Beside((clock, below), gap=3), Stack((clock, below), air=1)))


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
        tally=part("tally") or NOWHERE,
        start=part("start"),
        rung=part("rung"),
        load=part("load"),
        unit=part("unit"),
        plates=part("plates"),
        ribbon=part("ribbon"),
        notes=part("notes"),
    )


def _moved(spot: Spot, right: int, down: int) -> Spot:
    box = spot.box
    return spot._replace(box=box._replace(x=box.x + right, y=box.y + down))
