"""The chart on a screen: everybody's bests; enter opens an athlete's page."""

from collections.abc import Callable, Collection
from pathlib import Path
from typing import TYPE_CHECKING

from textual import work
from textual.screen import Screen

from classclock.book.asking.asked_in_words import asked_in_words
from classclock.book.files.saved_results import ResultsError, newest
from classclock.clock.source import local_now
from classclock.club import folder as club_folder
from classclock.plan.settings.club import Club
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.chart.chart_desk import ChartBook, ChartDesk
from classclock.screens.pages.chart.chart_drawing import draw_chart

if TYPE_CHECKING:
    from sqlalchemy import Connection


class ChartView(Painted):
    def __init__(self, look: Look, desk: ChartDesk) -> None:
        super().__init__(look)
        self.desk = desk

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_chart(self.desk, columns, rows, self.look)


class ChartScreen(PageScreen[None]):
    """Escape goes back."""

    def __init__(
        self,
        look: Look,
        *,
        folder: Path,
        club: Club,
        page_of: Callable[[str, str], Screen[None]],
        here: Collection[str] | None = None,
    ) -> None:
        """`folder` is the club's; `here` the ids of who is here, the latest class's if not said.

        `page_of` makes the page of an athlete's id, with the benchmark to be shown first.
        """
        super().__init__()
        self.folder = folder
        self._here, self._page_of = here, page_of
        words = "who is here" if here is not None else "who was in the latest class"
        self.desk = ChartDesk(mirrored=club.tv.mirrored, here_words=words)
        self.view = ChartView(look, self.desk)

    def on_mount(self) -> None:
        self.read_book()

    @work(thread=True, exit_on_error=False)
    def read_book(self) -> None:
        """Ask the book while the screen says so."""
        book, trouble = asked_in_words(self.folder, self._ask)
        self.app.call_from_thread(self.know, book, trouble)

    def _ask(self, connection: "Connection") -> ChartBook:
        from classclock.book.tables.queries import all_athletes, best_rows  # noqa: PLC0415  sqlalchemy

        here = self._here if self._here is not None else _latest(self.folder)
        return ChartBook(
            all_athletes(connection),
            best_rows(connection),
            f"{local_now():%Y-%m}",
            frozenset(here),
        )

    def know(self, book: ChartBook | None, trouble: str) -> None:
        if book is not None:
            self.desk.know(book)
        self.desk.notice = trouble
        self.view.repaint()

    def take(self, sign: str) -> bool:
        if sign == "<enter>":
            self.open()
            return False
        left = self.desk.sign(sign)
        if left:
            self.dismiss(None)
        return left

    def open(self) -> None:
        """Open the page of whoever is highlighted."""
        row = self.desk.highlighted
        if row is not None:
            self.app.push_screen(self._page_of(row.athlete, self.desk.benchmark))


def _latest(folder: Path) -> set[str]:
    """Nobody where that can't be read."""
    try:
        document = newest(club_folder.results(folder))
    except ResultsError:
        return set()
    return set() if document is None else {person.id for person in document.people}
