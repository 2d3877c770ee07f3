"""An athlete's page on a screen."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.book.asking.answer_or_why import answer_or_why
from classclock.book.tables.queries import all_athletes, best_rows, history
from classclock.clock.source import local_now
from classclock.report.athlete_page import athlete_page
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.reading_screen import ReadingScreen
from classclock.screens.pages.athlete.athlete_desk import AthleteBook, AthleteDesk
from classclock.screens.pages.athlete.athlete_drawing import draw_athlete

if TYPE_CHECKING:
    from sqlalchemy import Connection


class AthleteScreen(ReadingScreen[AthleteBook]):
    desk: AthleteDesk

    def __init__(
        self, look: Look, athlete: str, *, folder: Path, mirrored: bool, benchmark: str = ""
    ) -> None:
        """`athlete` is the id; `benchmark` whose history is shown first."""
        super().__init__()
        self.folder, self.athlete = folder, athlete
        self.desk = AthleteDesk(mirrored=mirrored, benchmark=benchmark)
        self.view = DrawnView(look, partial(draw_athlete, self.desk))

    def ask(self) -> tuple[AthleteBook | None, str]:
        book, words = answer_or_why(self.folder, self._in_book)
        return book, words or ("" if book is not None else "they are in the book no more")

    def _in_book(self, connection: "Connection") -> AthleteBook | None:
        who = next((one for one in all_athletes(connection) if one.id == self.athlete), None)
        if who is None:
            return None
        names = {name for _, name in best_rows(connection, [who.id])}
        runs = history(connection, [who.id], names)
        histories = {name: results for (_, name), results in runs.items()}
        return AthleteBook(athlete_page(connection, who, local_now().date()), histories)
