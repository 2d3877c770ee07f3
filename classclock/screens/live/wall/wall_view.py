"""The live wall: the clock, what is being done, and the lanes."""

from collections.abc import Iterable

from msgspec.structs import replace
from textual.app import ComposeResult
from textual.geometry import Region
from textual.widget import Widget

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Side
from classclock.screens.canvas.ground import Ground
from classclock.screens.canvas.layout.nodes import Box
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.placed import Placed
from classclock.screens.live.wall.big_clock import BigClock, ClockFace
from classclock.screens.live.wall.heading import Heading, heading_shown
from classclock.screens.live.wall.held_word import stands_under_clock
from classclock.screens.live.wall.lane_row import LaneRow
from classclock.screens.live.wall.wall_layout import WallLayout, lay_out_wall
from classclock.tally.lineup import MOST_LANES
from classclock.wall.lane_content import LaneContent
from classclock.wall.wall_content import WallContent


class WallView(Ground, Placed):
    """All rows are there from the start; those without a lane are hidden."""

    def __init__(self, look: Look, *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id)
        self.look = look
        self.content: WallContent | None = None
        self.lanes: tuple[LaneContent, ...] = ()
        self._clock = BigClock(look)
        self._heading = Heading(look)
        self._rows = [LaneRow(look) for _ in range(MOST_LANES)]
        self._laid: WallLayout | None = None

    def compose(self) -> ComposeResult:
        yield self._clock
        yield self._heading
        yield from self._rows

    def show(self, content: WallContent, lanes: tuple[LaneContent, ...]) -> None:
        """`lanes` are empty where the clock has the screen to itself."""
        self.content, self.lanes = content, lanes
        laid = self._lay_out(*self.size)
        if laid != self._laid:
            self._laid = laid
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
        wall = self._lay_out(columns, rows)
        if wall is None:
            return
        yield self._clock, _region(wall.clock.box)
        yield self._heading, _region(wall.heading)
        if wall.lane is not None:
            for row, (x, y) in zip(self._rows, wall.corners, strict=False):
                yield row, Region(x, y, wall.lane.width, wall.lane.rows)

    def _lay_out(self, columns: int, rows: int) -> WallLayout | None:
        if self.content is None or not (columns and rows):
            return None
        measure = CellMeasure(self.look.terminal)
        return lay_out_wall(self.content, self.lanes, columns, rows, measure)

    def _fill(self) -> None:
        content, wall = self.content, self._lay_out(*self.size)
        if content is None or wall is None:
            return
        shown = heading_shown(content, alone=not self.lanes, most=wall.most)
        under = ""
        if content.held and wall.lane is not None:
            measure = CellMeasure(self.look.terminal)
            if stands_under_clock(shown, wall, measure):
                under = content.emphasis
                shown = replace(shown, content=replace(shown.content, emphasis=""))
        self._show_clock(content, under)
        self._heading.show(shown)
        if wall.lane is not None:
            for row, lane in zip(self._rows, self.lanes, strict=False):
                row.show(lane, wall.lane)

    def _show_clock(self, content: WallContent, under: str = "") -> None:
        across: Side = "middle" if len(content.clock) <= 2 else "left"
        inverted = content.inverted
        self._clock.show(ClockFace(content.clock, inverted=inverted, across=across, held=under))


def _region(box: Box) -> Region:
    return Region(box.x, box.y, box.width, box.height)
