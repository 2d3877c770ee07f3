"""An athlete's page on a screen."""

from pathlib import Path
from typing import TYPE_CHECKING

from textual import work

from classclock.book.asking.asked_in_words import asked_in_words
from classclock.book.tables.queries import all_athletes, best_rows, history
from classclock.clock.source import local_now
from classclock.report.athlete_page import athlete_page
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.athlete.athlete_desk import AthleteBook, AthleteDesk
from classclock.screens.pages.athlete.athlete_drawing import draw_athlete

if TYPE_CHECKING:
    from sqlalchemy import Connection


class AthleteView(Painted):
    def __init__(self, look: Look, desk: AthleteDesk) -> None:
        super().__init__(look)
        self.desk = desk

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_athlete(self.desk, columns, rows, self.look)


class AthleteScreen(PageScreen[None]):
    """Escape goes back."""

    def __init__(
        self, look: Look, athlete: str, *, folder: Path, mirrored: bool, benchmark: str = ""
    ) -> None:
        """`athlete` is the id; `benchmark` whose history is shown first."""
        super().__init__()
        self.folder, self.athlete = folder, athlete
        self.desk = AthleteDesk(mirrored=mirrored, benchmark=benchmark)
        self.view = AthleteView(look, self.desk)

    def on_mount(self) -> None:
        self.read_book()

    @work(thread=True, exit_on_error=False)
    def read_book(self) -> None:
        """Ask the book while the screen says so."""
        book, trouble = asked_in_words(self.folder, self._ask)
        self.app.call_from_thread(self.know, book, trouble)

    def _ask(self, connection: "Connection") -> AthleteBook | None:
        who = next((one for one in all_athletes(connection) if one.id == self.athlete), None)
        if who is None:
            return None
        names = {name for _, name in best_rows(connection, [who.id])}
        runs = history(connection, [who.id], names)
        histories = {name: results for (_, name), results in runs.items()}
        return AthleteBook(athlete_page(connection, who, local_now().date()), histories)

    def know(self, book: AthleteBook | None, trouble: str) -> None:
        if book is not None:
            self.desk.know(book)
        self.desk.notice = trouble or ("" if book is not None else "they are in the book no more")
        self.view.repaint()

    def take(self, sign: str) -> bool:
        left = self.desk.sign(sign)
        if left:
            self.dismiss(None)
        return left
