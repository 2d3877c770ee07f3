"""The coach's own screen: the clock, what is done, everybody, and the lines beside them."""

from collections.abc import Iterable

from msgspec.structs import replace
from textual import events
from textual.app import ComposeResult
from textual.geometry import Region
from textual.widget import Widget

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, Side
from classclock.screens.canvas.ground import Ground
from classclock.screens.canvas.layout.nodes import Box
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.canvas.placed import Placed
from classclock.screens.live.coach.coach_head import CoachHead
from classclock.screens.live.coach.coach_lane_drawing import draw_coach_lane
from classclock.screens.live.coach.coach_layout import (
    CoachLaneLayout,
    CoachLayout,
    lay_out_coach,
)
from classclock.screens.live.coach.section_drawing import draw_section
from classclock.screens.live.wall.big_clock import BigClock, ClockFace
from classclock.screens.live.wall.lane_row import LaneRow
from classclock.tally.lineup import MOST_LANES
from classclock.wall.coach.coach_values import CoachContent, CoachLane, CoachSection, SectionName

_SECTIONS: tuple[SectionName, ...] = ("asked", "entries", "plan", "notes")


class CoachView(Ground, Placed):
    """All rows are there from the start; those without a lane are hidden."""

    def __init__(self, look: Look, *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id)
        self.look = look
        self.content: CoachContent | None = None
        self._clock, self._head = BigClock(look), CoachHead(look)
        self._rows = [CoachRow(look) for _ in range(MOST_LANES)]
        self._sections = {name: SectionView(look) for name in _SECTIONS}
        self._laid: CoachLayout | None = None

    def compose(self) -> ComposeResult:
        yield self._clock
        yield self._head
        yield from self._rows
        yield from self._sections.values()

    def show(self, content: CoachContent) -> None:
        self.content = content
        laid = self._lay_out(*self.size)
        if laid != self._laid:
            self._laid = laid
            self._head.refresh(layout=True)  # what asks for a layout is a child that moves
        self._fill()

    def ready(self, content: CoachContent) -> None:
        """Draw what it would show, unseen: laid out and lettered it then comes at once."""
        around = self.parent
        if not isinstance(around, Widget) or self.is_on_screen:
            return
        self.show(content)
        if (laid := self._lay_out(*around.size)) is None:
            return
        self._fill_in(content, laid)
        for child, region in self.places(*around.size):
            if isinstance(child, Painted):
                child.paint(*region.size)

    def show_digits(self, clock: str, *, inverted: bool) -> None:
        """Other digits, where they stand in the same places as those before."""
        content = self.content
        if content is not None and len(content.head.clock) == len(clock):
            head = replace(content.head, clock=clock, inverted=inverted)
            self.content = replace(content, head=head)
            self._show_clock(self.content)

    def on_resize(self) -> None:
        self._fill()

    def places(self, columns: int, rows: int) -> Iterable[tuple[Widget, Region]]:
        laid = self._lay_out(columns, rows)
        if laid is None:
            return
        if laid.clock is not None:
            yield self._clock, _region(laid.clock.box)
        yield self._head, _region(laid.head)
        for name, box in laid.sections.items():
            yield self._sections[name], _region(box)
        if laid.lane is not None:
            for row, (x, y) in zip(self._rows, laid.corners, strict=False):
                yield row, Region(x, y, laid.lane.width, laid.lane.rows)

    def _lay_out(self, columns: int, rows: int) -> CoachLayout | None:
        if self.content is None or not (columns and rows):
            return None
        return lay_out_coach(self.content, columns, rows, CellMeasure(self.look.terminal))

    def _fill(self) -> None:
        content, laid = self.content, self._lay_out(*self.size)
        if content is not None and laid is not None:
            self._fill_in(content, laid)

    def _fill_in(self, content: CoachContent, laid: CoachLayout) -> None:
        self._show_clock(content)
        head = replace(content.head, clock="", inverted=False)
        self._head.show(head, clears=content.clears)
        for section in content.sections:
            self._sections[section.name].show(section)
        if laid.lane is not None:
            for row, lane in zip(self._rows, content.lanes, strict=False):
                row.show(lane, laid.lane)

    def _show_clock(self, content: CoachContent) -> None:
        head = content.head
        across: Side = "middle" if len(head.clock) <= 2 else "left"
        self._clock.show(ClockFace(head.clock, inverted=head.inverted, across=across))


class CoachRow(Painted):
    """One lane; it repaints only if something of it would look different."""

    lane: CoachLane | None = None
    plan: CoachLaneLayout | None = None

    def show(self, lane: CoachLane, plan: CoachLaneLayout) -> None:
        if (lane, plan) != (self.lane, self.plan):
            self.lane, self.plan = lane, plan
            self.repaint()

    def on_click(self, event: events.Click) -> None:
        event.stop()
        if self.lane is not None:
            self.post_message(LaneRow.Clicked(self.lane.key.lower()))

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.lane is None or self.plan is None:
            return self.look.gap(columns, rows)
        return draw_coach_lane(self.lane, self.plan, self.look)


class SectionView(Painted):
    section: CoachSection | None = None

    def show(self, section: CoachSection) -> None:
        if section != self.section:
            self.section = section
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.section is None:
            return self.look.gap(columns, rows)
        return draw_section(self.section, columns, rows, self.look)


def _region(box: Box) -> Region:
    return Region(box.x, box.y, box.width, box.height)
