"""The ways in which clock, heading and lanes may stand."""

from collections.abc import Sequence

from msgspec import Struct

from classclock.screens.canvas.layout.parts import (
    Area,
    Arrangement,
    Beside,
    Grid,
    OneOf,
    Stack,
    Written,
)
from classclock.screens.live.wall.heading import heading
from classclock.screens.live.wall.lane_grid import lane_grids
from classclock.screens.live.wall.lift_grid import lift_grids, lifting
from classclock.wall.lane_content import LaneContent
from classclock.wall.wall_content import WallContent

_CLOCK_SHARE, _CLOCK_ROWS = 5, 5
"""Of the rows the clock has this part at least, and so many, and more as far as there is room."""


class WallWays(Struct, frozen=True):
    """The wall with more and more, what is wished for most first; and with less and less."""

    rich: tuple[Arrangement, ...]
    plain: tuple[Arrangement, ...]
    close: tuple[Arrangement, ...] = ()
    """All close together, with what may go at last."""


def wall_ways(content: WallContent, lanes: Sequence[LaneContent], rows: int) -> WallWays:
    large, small = _clock(content, max(_CLOCK_ROWS, rows // _CLOCK_SHARE)), _clock(content, 1)
    if not lanes:
        return WallWays((), (_alone(content, large), _alone(content, small)))
    beside, abreast = (_heading(content, abreast=abreast) for abreast in (False, True))
    grids = (lift_grids if lifting(lanes) else lane_grids)(lanes)
    plain = [_with_lanes(large, beside, one) for one in grids.plain]
    return WallWays(
        tuple(_with_lanes(large, beside, one) for one in grids.rich),
        (*plain, _with_lanes(small, beside, grids.plain[-1])),
        tuple(_with_lanes(small, abreast, one) for one in grids.close),
    )


def _heading(content: WallContent, *, abreast: bool) -> Area:
    return Area("heading", heading(content, alone=False, abreast=abreast))


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
