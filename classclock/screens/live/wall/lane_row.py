"""One lane of the wall as a widget: it repaints only if something of it would look different."""

from msgspec.structs import replace
from textual import events

from classclock.screens.canvas.bar import eighth, goal_column
from classclock.screens.canvas.cells import Drawing, blank
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.meant import Meant
from classclock.screens.live.wall.lane_drawing import draw_lane
from classclock.screens.live.wall.wall_layout import LaneLayout
from classclock.wall.lane_bars import Ribbon, Share
from classclock.wall.lane_content import LaneContent


class LaneRow(Painted):
    class Clicked(Meant):
        """A click on the lane with this key."""

        def __init__(self, key: str) -> None:
            super().__init__()
            self.key = key

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.content: LaneContent | None = None
        self.plan: LaneLayout | None = None

    def show(self, content: LaneContent, plan: LaneLayout) -> None:
        content = as_seen(content, plan)
        if content != self.content or plan != self.plan:
            self.content, self.plan = content, plan
            self.repaint()

    def on_click(self, event: events.Click) -> None:
        event.stop()
        if self.content is not None:
            self.post_message(self.Clicked(self.content.key))

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.content is None or self.plan is None:
            return blank(columns, rows, self.look.theme.ground)
        return draw_lane(self.content, self.plan, self.look)


def as_seen(content: LaneContent, plan: LaneLayout) -> LaneContent:
    """With the end of its ribbon, and a goal's mark in set work, where they are drawn."""
    bar = content.bar
    if not isinstance(bar, Ribbon | Share):
        return content
    if plan.ribbon is None:
        return replace(content, bar=None)
    columns = plan.ribbon.box.width - 1
    if isinstance(bar, Share):
        return replace(content, bar=replace(bar, goal=_goal_seen(bar, columns)))
    seen = eighth(bar.reached, bar.cap, columns) * bar.cap // (columns * 8)
    last = bar.rounds[-1].end if bar.rounds else 0
    return replace(content, bar=replace(bar, reached=max(seen, last)))


def _goal_seen(bar: Share, columns: int) -> int | None:
    """The least work whose mark stands in the same cell."""
    at = goal_column(bar.goal, bar.whole, columns)
    if at is None:
        return None
    least = -(-at * bar.whole // columns)
    return least if goal_column(least, bar.whole, columns) == at else bar.goal
