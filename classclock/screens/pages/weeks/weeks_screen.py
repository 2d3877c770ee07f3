"""What was done this week and in the four before, by pattern and by length; what is planned."""

from pathlib import Path

from textual import work

from classclock.book.asking.weeks_reading import read_weeks
from classclock.clock.source import local_now
from classclock.club.movements import read_library
from classclock.plan.settings.club import Club
from classclock.planning.weeks import Weeks, weeks_until
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.weeks.weeks_drawing import WeeksPage, draw_weeks, lines_said


class WeeksView(Painted):
    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.page = WeeksPage()

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_weeks(self.page, columns, rows, self.look)


class WeeksScreen(PageScreen[None]):
    """Escape goes back."""

    view: WeeksView

    def __init__(self, look: Look, *, folder: Path, club: Club) -> None:
        """`folder` is the club's."""
        super().__init__()
        self.folder, self.club = folder, club
        self.view = WeeksView(look)

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

    def take(self, sign: str) -> bool:
        if sign in ("<escape>", "<f7>"):
            self.dismiss(None)
            return True
        self._scroll({"<up>": -1, "<down>": 1}.get(sign, 0))
        return False

    def _scroll(self, lines: int) -> None:
        page = self.view.page
        last = max(0, lines_said(page, self.view.size.width) - 1)
        page.top = max(0, min(page.top + lines, last))
