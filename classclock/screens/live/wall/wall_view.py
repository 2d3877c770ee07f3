"""The live wall: the clock, what is being done, and the lanes."""

from collections.abc import Iterable
from functools import partial

from msgspec import Struct
from msgspec.structs import replace
from textual.app import ComposeResult
from textual.geometry import Region
from textual.widget import Widget

from classclock.screens.canvas.cells import Side
from classclock.screens.canvas.ground import Ground
from classclock.screens.canvas.layout.nodes import Box
from classclock.screens.canvas.least_size import LEAST_COLUMNS, LEAST_ROWS
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.placed import Placed
from classclock.screens.live.wall.big_clock import BigClock, ClockFace
from classclock.screens.live.wall.heading import Heading, around_lines, beside_lines
from classclock.screens.live.wall.lane_row import LaneRow
from classclock.screens.live.wall.layout import MOST_LANES, WallLayout, wall_layout
from classclock.units.cell_dots import CellDots
from classclock.wall.lane_content import LaneContent
from classclock.wall.wall_content import WallContent

_CLOCK_WIDTH = 7.45
"""Columns for each row of 00:00 in outline type."""


class AloneLayout(Struct, frozen=True):
    """Where the clock stands that has the screen to itself, and the lines with it."""

    over: Box
    clock: Box
    under: Box


def alone_layout(columns: int, rows: int, signs: int, *, lines: bool) -> AloneLayout:
    """The clock as large as can be, with what it is for over it; `lines` are to go under it.

    A count-in of one or two digits is as high as the screen, and the lines are beside it.
    """
    width = columns - 2
    if signs <= 2:
        high = min(rows - 2, int(width * 0.45 / (_CLOCK_WIDTH * 2 / 5)))
        clock = Box(1, (rows - high) // 2, round(high * _CLOCK_WIDTH * 2 / 5), high)
        right = 1 + clock.width + 3
        over = max(3, rows // 4)
        return AloneLayout(
            Box(right, 1, columns - right - 1, over),
            clock,
            Box(right, over + 2, columns - right - 1, rows - over - 3),
        )
    widest = int(width / (_CLOCK_WIDTH * signs / 5))
    clock_rows = max(1, min(widest, rows * (9 if lines else 13) // 20))
    top = 1 if rows >= 24 else 0
    over = max(2, rows // 6)
    start = top + over + 1
    under = start + clock_rows + 1
    return AloneLayout(
        Box(1, top, width, over),
        Box(1, start, width, clock_rows),
        Box(1, under, width, max(0, rows - under)),
    )


def lanes_layout(
    columns: int, rows: int, lanes: int, name_letters: int, dots: CellDots | None = "sextants"
) -> WallLayout:
    """The wall in a view of this size, which has its status line elsewhere.

    Tallies get room for 12+12 if there is any, otherwise for 7+12: the lanes must not move when
    somebody's tenth round comes.
    """
    size = max(columns, LEAST_COLUMNS), max(rows + 1, LEAST_ROWS)
    layout = partial(wall_layout, *size, lanes, name_letters=name_letters, dots=dots)
    roomy, usual = layout(tally_signs=5), layout(tally_signs=4)
    return roomy if roomy.lane.tally.width > usual.lane.tally.width else usual


class WallView(Ground, Placed):
    """All rows are there from the start; those without a lane are hidden."""

    def __init__(self, look: Look, *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id)
        self.look = look
        self.content: WallContent | None = None
        self.lanes: tuple[LaneContent, ...] = ()
        self._clock = BigClock(look)
        self._over, self._under = Heading(look), Heading(look)
        self._rows = [LaneRow(look) for _ in range(MOST_LANES)]
        self._shape: object = None

    def compose(self) -> ComposeResult:
        yield self._clock
        yield self._over
        yield self._under
        yield from self._rows

    def show(self, content: WallContent, lanes: tuple[LaneContent, ...]) -> None:
        """`lanes` are empty where the clock has the screen to itself."""
        self.content, self.lanes = content, lanes
        shape = self._measure()
        if shape != self._shape:
            self._shape = shape
            self._clock.refresh(layout=True)  # what asks for a layout is the child that moves
        self._fill()

    def show_digits(self, clock: str, *, inverted: bool) -> None:
        """Other digits, where they stand in the same places as those before.

        After a count-in the lanes are yet to come, which takes its time: GO stands there first.
        """
        content = self.content
        if content is None:
            return
        if len(content.clock) <= 2:
            self._show_clock(replace(content, clock="GO"))
        elif len(content.clock) == len(clock):
            self.content = replace(content, clock=clock, inverted=inverted)
            self._show_clock(self.content)

    def on_resize(self) -> None:
        self._fill()

    def places(self, columns: int, rows: int) -> Iterable[tuple[Widget, Region]]:
        if not self.lanes:
            alone = alone_layout(columns, rows, self._signs(), lines=self._has_lines())
            yield self._over, _region(alone.over)
            yield self._clock, _region(alone.clock)
            yield self._under, _region(alone.under)
            return
        wall = self._wall(columns, rows)
        yield self._clock, _region(wall.clock)
        yield self._over, _region(wall.heading)
        lanes = zip(self._rows, wall.corners, strict=False)
        for row, (x, y) in lanes:
            yield row, Region(x, y, wall.lane.width, wall.lane.rows)

    def _measure(self) -> object:
        """What the places depend on, beside the size."""
        names = max((len(lane.name) for lane in self.lanes), default=0)
        if self.lanes:
            return len(self.lanes), names
        return self._has_lines(), self._signs() > 2, self._signs() > 5

    def _has_lines(self) -> bool:
        content = self.content
        return content is not None and bool(content.lines or content.stations or content.cautions)

    def _signs(self) -> int:
        return len(self.content.clock) if self.content is not None else 5

    def _wall(self, columns: int, rows: int) -> WallLayout:
        names = max(len(lane.name) for lane in self.lanes)
        return lanes_layout(columns, rows, len(self.lanes), names, self.look.terminal.dots)

    def _fill(self) -> None:
        content = self.content
        if content is None:
            return
        columns, rows = self.size
        alone = not self.lanes
        self._show_clock(content)
        if alone:
            over, under = around_lines(content, self.look)
            self._over.show(over)
            self._under.show(under)
            return
        self._over.show(beside_lines(content, self.look))
        plan = self._wall(columns, rows).lane
        for row, lane in zip(self._rows, self.lanes, strict=False):
            row.show(lane, plan)

    def _show_clock(self, content: WallContent) -> None:
        across: Side = "middle" if len(content.clock) <= 2 else "left"
        self._clock.show(ClockFace(content.clock, inverted=content.inverted, across=across))


def _region(box: Box) -> Region:
    return Region(box.x, box.y, box.width, box.height)
