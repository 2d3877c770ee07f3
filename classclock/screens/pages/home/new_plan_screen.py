"""A new plan: what it is made from."""

from functools import partial
from pathlib import Path

from classclock.drafts.new_plan_list import begin, starts_in
from classclock.drafts.plan_being_written import PlanOnDisk
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.home.home_desk import HomeDesk
from classclock.screens.pages.home.home_drawing import draw_home
from classclock.screens.pages.home.home_list import HomeEntry

_KEYS = ("enter begins", "up, down", "type to find", "escape goes back")


class NewPlanScreen(PageScreen[PlanOnDisk | None]):
    """Ends with the text to begin from; None goes back."""

    def __init__(self, look: Look, *, folder: Path) -> None:
        """`folder` is the club's."""
        super().__init__()
        self.starts = [(HomeEntry(one.title, one.words), one.source) for one in starts_in(folder)]
        self.desk = HomeDesk([entry for entry, _ in self.starts])
        draw = partial(draw_home, self.desk, title="a new plan", keys=_KEYS)
        self.view = DrawnView(look, draw)

    def take(self, sign: str) -> bool:
        if sign == "<enter>":
            self._begin()
            return False
        left = self.desk.sign(sign)
        if left:
            self.dismiss(None)
        return left

    def _begin(self) -> None:
        lit = self.desk.highlighted
        source = next((source for entry, source in self.starts if entry is lit), None)
        if source is None:
            self.desk.notice = "nothing here has that name: escape drops what is typed"
            return
        try:
            self.dismiss(begin(source))
        except ValueError as error:
            self.desk.notice = str(error)
