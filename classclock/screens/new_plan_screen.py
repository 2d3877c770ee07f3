"""A new plan: what it is made from."""

from pathlib import Path

from textual import events
from textual.app import ComposeResult
from textual.screen import Screen

from classclock.plan_being_written import PlanOnDisk
from classclock.screens.drawing.cells import Drawing
from classclock.screens.home_desk import HomeDesk
from classclock.screens.home_drawing import draw_home
from classclock.screens.key_sign import signs_of
from classclock.screens.look import Look
from classclock.screens.new_plan_list import begin, starts_in
from classclock.screens.painted import Painted

_KEYS = ("enter begins", "up, down", "type to find", "escape goes back")


class NewPlanView(Painted):
    def __init__(self, look: Look, desk: HomeDesk) -> None:
        super().__init__(look)
        self.desk = desk

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_home(self.desk, columns, rows, self.look, title="a new plan", keys=_KEYS)


class NewPlanScreen(Screen[PlanOnDisk | None]):
    """Ends with the text to begin from; None goes back."""

    def __init__(self, look: Look, *, folder: Path) -> None:
        """`folder` is the club's."""
        super().__init__()
        self.starts = starts_in(folder)
        self.desk = HomeDesk(cut_off=(), plans=[start.entry for start in self.starts])
        self.view = NewPlanView(look, self.desk)

    def compose(self) -> ComposeResult:
        yield self.view

    def on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        if event.key in ("ctrl+q", "ctrl+c"):
            self.dismiss(None)
            return
        for sign in signs_of(event.key, event.character):
            if sign == "<enter>":
                self._begin()
            elif self.desk.sign(sign):
                self.dismiss(None)
                return
        self.view.repaint()

    def _begin(self) -> None:
        lit = self.desk.highlighted
        start = next((one for one in self.starts if one.entry is lit), None)
        if start is None:
            self.desk.notice = "nothing here has that name: escape drops what is typed"
            return
        try:
            self.dismiss(begin(start.source))
        except ValueError as error:
            self.desk.notice = str(error)
