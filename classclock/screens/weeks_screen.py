"""What was done this week and in the four before, by pattern and by length; what is planned."""

from pathlib import Path

from textual import events, work
from textual.app import ComposeResult
from textual.screen import Screen

from classclock.book.weeks_reading import read_weeks
from classclock.clock.source import local_now
from classclock.plan.club import Club
from classclock.plan.movements_reading import read_library
from classclock.plan.weeks import Weeks, weeks_until
from classclock.screens.drawing.cells import Drawing
from classclock.screens.key_sign import signs_of
from classclock.screens.look import Look
from classclock.screens.painted import Painted
from classclock.screens.weeks_drawing import WeeksPage, draw_weeks, lines_said


class WeeksView(Painted):
    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.page = WeeksPage()

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_weeks(self.page, columns, rows, self.look)


class WeeksScreen(Screen[None]):
    """Escape goes back."""

    def __init__(self, look: Look, *, folder: Path, club: Club) -> None:
        """`folder` is the club's."""
        super().__init__()
        self.folder, self.club = folder, club
        self.view = WeeksView(look)

    def compose(self) -> ComposeResult:
        yield self.view

    def on_mount(self) -> None:
        self.read_files()

    @work(thread=True, exit_on_error=False)
    def read_files(self) -> None:
        """Read the classes and plans of these weeks while the screen says so."""
        library, findings = read_library(self.folder / "movements.toml")
        if library is None:
            self.app.call_from_thread(self.know, None, 0, str(findings[0]))
            return
        today = local_now().date()
        read = read_weeks(self.folder, today, self.club.unit)
        weeks = weeks_until(today, read.held, read.planned, library)
        self.app.call_from_thread(self.know, weeks, read.without_plan, "")

    def know(self, weeks: Weeks | None, without_plan: int, trouble: str) -> None:
        page = self.view.page
        page.weeks, page.without_plan, page.notice = weeks, without_plan, trouble
        self.view.repaint()

    def on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        if event.key in ("ctrl+q", "ctrl+c"):
            self.dismiss(None)
            return
        for sign in signs_of(event.key, event.character):
            if sign in ("<escape>", "<f7>"):
                self.dismiss(None)
                return
            self._scroll({"<up>": -1, "<down>": 1}.get(sign, 0))
        self.view.repaint()

    def _scroll(self, lines: int) -> None:
        page = self.view.page
        last = max(0, lines_said(page, self.view.size.width) - 1)
        page.top = max(0, min(page.top + lines, last))
