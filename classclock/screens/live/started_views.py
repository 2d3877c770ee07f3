"""The views of a class that has been started: the wall, the settle, the end."""

from typing import TYPE_CHECKING, assert_never

from classclock.screens.canvas.look import Look
from classclock.screens.live.end.summary_view import SummaryView
from classclock.screens.live.guide import Guide
from classclock.screens.live.settle.settle_view import SettleView
from classclock.screens.live.wall.wall_view import WallView
from classclock.tally.scores.questions import questions
from classclock.wall.seen.class_seen import ClassSeen
from classclock.wall.seen.started_content import StartedContent, digits

if TYPE_CHECKING:
    from classclock.screens.live.coach.coach_view import CoachView


class StartedViews:
    def __init__(self, seen: ClassSeen, look: Look, guide: Guide, *, mirrored: bool) -> None:
        self._seen, self._guide = seen, guide
        self.content = StartedContent(seen, mirrored=mirrored)
        self._wall = WallView(look, id="wall")
        self._settle = SettleView(look, id="settle")
        self._summary = SummaryView(look, id="summary")
        self._on: WallView | SettleView | SummaryView = self._wall

    def widgets(self) -> tuple[WallView | SettleView | SummaryView, ...]:
        return self._wall, self._settle, self._summary

    def show(self, *, cue: str) -> str:
        """Show the class as it stands now; the id of the view that shows it."""
        live, guide, content = self._seen.live, self._guide, self.content
        selected = guide.selected
        match screen := content.screen:
            case "summary":
                self._on = self._summary
                self._summary.show(content.summary(guide.saved()), guide.page("summary"))
            case "settle":
                self._on, sheet = self._settle, live.record.sheet
                asked = next(iter(questions(sheet)), None) if sheet is not None else None
                on = guide.page(live.record.chosen, (asked, selected))
                self._settle.show(content.settle(selected, guide.saved()), on)
            case "wall":
                self._on = self._wall
                guide.page("wall")
                if (shown := content.wall(selected, cue)) is not None:
                    self._wall.show(*shown)
            case _:
                assert_never(screen)
        return screen

    @property
    def pages(self) -> int:
        """How many pages that turn by themselves what is shown has."""
        return 1 if isinstance(self._on, WallView) else self._on.pages

    @property
    def page_shown(self) -> int:
        return 0 if isinstance(self._on, WallView) else self._on.page_shown

    def show_digits(self, on: "WallView | CoachView | None" = None) -> None:
        """Bring the digits of a running clock up to date, and nothing else; `on` this view."""
        view = self._seen.live.view()
        if view is None:
            return
        reading = view.at(self._seen.live.clock.now())
        if clock := digits(reading):
            (on or self._wall).show_digits(clock, inverted=reading.over)
