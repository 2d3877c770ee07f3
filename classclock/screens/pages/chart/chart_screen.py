"""The chart on a screen: everybody's bests; enter opens an athlete's page."""

from collections.abc import Callable, Collection
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from textual.screen import Screen

from classclock.book.asking.answer_or_why import answer_or_why
from classclock.book.files.saved_results import ResultsError, newest
from classclock.clock.source import local_now
from classclock.club import folder as club_folder
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.reading_screen import ReadingScreen
from classclock.screens.pages.chart.chart_desk import ChartBook, ChartDesk
from classclock.screens.pages.chart.chart_drawing import draw_chart

if TYPE_CHECKING:
    from sqlalchemy import Connection


class ChartScreen(ReadingScreen[ChartBook]):
    desk: ChartDesk

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
        self.view = DrawnView(look, partial(draw_chart, self.desk))

    def ask(self) -> tuple[ChartBook | None, str]:
        return answer_or_why(self.folder, self._in_book)

    def _in_book(self, connection: "Connection") -> ChartBook:
        from classclock.book.asking.chart_bests import chart_bests  # noqa: PLC0415  sqlalchemy
        from classclock.book.goals.standing import goals_now  # noqa: PLC0415  the same
        from classclock.book.tables.applying import athletes_now  # noqa: PLC0415  the same
        from classclock.book.tables.queries import all_athletes  # noqa: PLC0415  the same

        here = self._here if self._here is not None else _latest(self.folder)
        return ChartBook(
            all_athletes(connection),
            chart_bests(connection),
            f"{local_now():%Y-%m}",
            frozenset(athletes_now(connection, here).values()),
            goals_now(connection, local_now().date()),
        )

    def take(self, sign: str) -> bool:
        if sign == "<enter>":
            self.open()
            return False
        return super().take(sign)

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
