"""What was done this week and in the four before, by pattern and by length; what is planned."""

from functools import partial
from pathlib import Path

from classclock.book.asking.weeks_reading import read_weeks
from classclock.clock.source import local_now
from classclock.club.movements import read_library
from classclock.plan.settings.club import Club
from classclock.planning.weeks import weeks_until
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.reading_screen import ReadingScreen
from classclock.screens.pages.weeks.weeks_desk import WeeksBook, WeeksDesk
from classclock.screens.pages.weeks.weeks_drawing import draw_weeks, lines_said


class WeeksScreen(ReadingScreen[WeeksBook]):
    desk: WeeksDesk

    def __init__(self, look: Look, *, folder: Path, club: Club) -> None:
        """`folder` is the club's."""
        super().__init__()
        self.folder, self.club = folder, club
        self.desk = WeeksDesk()
        self.view = DrawnView(look, partial(draw_weeks, self.desk))

    def ask(self) -> tuple[WeeksBook | None, str]:
        library, findings = read_library(self.folder / "movements.toml")
        if library is None:
            return None, str(findings[0])
        today = local_now().date()
        read = read_weeks(self.folder, today, self.club.unit)
        weeks = weeks_until(today, read.held, read.planned, library)
        return WeeksBook(weeks, read.without_plan), ""

    def take(self, sign: str) -> bool:
        self.desk.lines = lines_said(self.desk.book, self.view.size.width)
        return super().take(sign)
