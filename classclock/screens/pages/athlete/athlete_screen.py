"""An athlete's page on a screen."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.book.asking.answer_or_why import answer_or_why
from classclock.book.tables.queries import all_athletes, best_rows, history
from classclock.clock.source import local_now
from classclock.report.athlete_page import athlete_page
from classclock.report.goal_words import none_better_words
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.reading_screen import ReadingScreen
from classclock.screens.pages.athlete.athlete_desk import AthleteBook, AthleteDesk, GoalKept
from classclock.screens.pages.athlete.athlete_drawing import draw_athlete
from classclock.screens.pages.athlete.goal_entry import GoalTyped
from classclock.units.loads import Unit

if TYPE_CHECKING:
    from sqlalchemy import Connection


class AthleteScreen(ReadingScreen[AthleteBook]):
    desk: AthleteDesk

    def __init__(
        self,
        look: Look,
        athlete: str,
        *,
        folder: Path,
        mirrored: bool,
        benchmark: str = "",
        unit: Unit = "kg",
    ) -> None:
        """`athlete` is the id, `benchmark` whose history is first, `unit` that of bare loads."""
        super().__init__()
        self.folder, self.athlete, self._unit = folder, athlete, unit
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

    def take(self, sign: str) -> bool:
        left = super().take(sign)
        if (typed := self.desk.take_typed()) is not None:
            self.read(self.desk.kept, partial(self._keep, typed))
        return left

    def _keep(self, typed: GoalTyped) -> GoalKept:
        """Set a goal, or end it. In a thread."""
        from classclock.book.goals.reading import goal_typed  # noqa: PLC0415  few set one
        from classclock.book.goals.setting import end_goal, set_goal  # noqa: PLC0415  the same

        if typed.text:
            asked = goal_typed(typed.benchmark, typed.text)
            done = set_goal(self.folder, self.athlete, asked, unit=self._unit, anyway=typed.anyway)
        else:
            done = end_goal(self.folder, self.athlete, typed.benchmark)
        if done.no_better is not None and (best := done.no_better.best) is not None:
            return GoalKept(question=none_better_words(self.desk.name, done.no_better.goal, best))
        if done.why_not:
            return GoalKept(done.why_not)
        book, why = self.ask()
        return GoalKept(why or "kept: classclock book undo takes it back", book=book)
