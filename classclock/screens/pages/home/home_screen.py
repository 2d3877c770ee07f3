"""Home: which plan to run, or which class that was cut off to rejoin."""

from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from textual.screen import Screen

from classclock.club.folder import settings
from classclock.club.plan_files import plan_paths
from classclock.club.settings import read_club
from classclock.plan.model import Segment
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club, Emergency
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.home.home_desk import HomeDesk
from classclock.screens.pages.home.home_drawing import draw_home
from classclock.screens.pages.home.home_list import (
    HomeEntry,
    plan_entry,
    unfinished_entries,
    unread,
)
from classclock.wall.emergency_words import lacks

if TYPE_CHECKING:
    from classclock.drafts.plan_being_written import PlanOnDisk

HomeChoice = PlanFile | Path | Segment
"""A plan to run, the journal of a class to rejoin, or a clock to run without a plan."""

_AT_ONCE = 10
"""Plans that are read between two looks at the screen."""


class HomeOpens(Protocol):
    """Makes the pages that home opens over itself."""

    def first_run(self) -> Screen[bool]: ...
    def card(self, club: Club) -> Screen[Emergency | None]: ...
    def chart(self, club: Club) -> Screen[None]: ...
    def weeks(self, club: Club) -> Screen[None]: ...
    def clock(self) -> "Screen[Segment | None]": ...
    def new_plan(self) -> "Screen[PlanOnDisk | None]": ...
    def editor(self, plan: "PlanOnDisk", club: Club) -> Screen[str]: ...


class HomeScreen(PageScreen[HomeChoice | None]):
    """Ends with what was chosen; None leaves classclock."""

    def __init__(
        self, look: Look, *, folder: Path, club: Club, now: datetime, opens: HomeOpens
    ) -> None:
        """`folder` is the club's; `now` is the time of day, with its offset."""
        super().__init__()
        self.folder, self.club = folder, club
        self._opens = opens
        self.paths = plan_paths(folder)
        self.desk = HomeDesk(
            [unread(path) for path in self.paths],
            cut_off=unfinished_entries(folder, now),
            club=club.name,
            no_card=lacks(club.emergency),
        )
        self.view = DrawnView(look, partial(draw_home, self.desk))

    def on_mount(self) -> None:
        self.read_plans()

    def read_plans(self) -> None:
        """Read all plans, a few at a time, while the coach looks on."""
        firsts = range(0, len(self.paths), _AT_ONCE)
        self.read(self.know, *(partial(self._read_some, first) for first in firsts))

    def _read_some(self, first: int) -> tuple[int, list[HomeEntry]]:
        some = self.paths[first : first + _AT_ONCE]
        return first, [plan_entry(path, self.club.unit) for path in some]

    def know(self, read: tuple[int, list[HomeEntry]]) -> None:
        first, entries = read
        self.desk.plans[first : first + len(entries)] = entries

    def take(self, sign: str) -> bool:
        opens = {
            "<enter>": self.open,
            "<f2>": self.fill_in_card,
            "<f6>": self.open_chart,
            "<f7>": self.open_weeks,
            "<f8>": self.edit_plan,
            "<f9>": self.new_plan,
            "<ctrl+g>": self.ask_clock,
        }
        if sign in opens:
            opens[sign]()
            return False
        left = self.desk.sign(sign)
        if left:
            self.dismiss(None)
        return left

    def open(self) -> None:
        """Open what is highlighted; a plan that isn't read yet is read now."""
        desk = self.desk
        entry = desk.highlighted
        if entry is not None and entry.kind == "unread":
            at = desk.plans.index(entry)
            entry = desk.plans[at] = plan_entry(self.paths[at], self.club.unit)
        if entry is None:
            desk.notice = "nothing here has that name: escape drops what is typed"
        elif entry.opens is None:
            desk.notice = f"{entry.title} can't be opened: {entry.instead}, then classclock again"
        else:
            self.dismiss(entry.opens)

    def fill_in_card(self) -> None:
        """Ask for the card's lines; where the first run was put off, for all that it asks."""
        if settings(self.folder).exists():
            self.app.push_screen(self._opens.card(self.club), self.filled_in)
        else:
            self.app.push_screen(self._opens.first_run(), self.set_up)

    def filled_in(self, card: Emergency | None) -> None:
        if card is not None:
            self.know_club(self.club.model_copy(update={"emergency": card}))

    def set_up(self, stays: bool | None) -> None:  # noqa: FBT001  what the first run ends with
        if not stays:
            self.dismiss(None)
            return
        self.know_club(read_club(settings(self.folder))[0] or self.club)
        self.read_again()

    def know_club(self, club: Club) -> None:
        self.club = club
        self.desk.club, self.desk.no_card = club.name, lacks(club.emergency)
        self.view.repaint()

    def open_chart(self) -> None:
        self.app.push_screen(self._opens.chart(self.club))

    def open_weeks(self) -> None:
        self.app.push_screen(self._opens.weeks(self.club))

    def edit_plan(self) -> None:
        """Edit the plan in focus, a faulty one too."""
        from classclock.drafts.plan_being_written import open_plan  # noqa: PLC0415  only if asked

        desk, lit = self.desk, self.desk.highlighted
        at = next((n for n, entry in enumerate(desk.plans) if entry is lit), None)
        if at is None:
            desk.notice = "up and down to a plan, then F8 edits it"
            return
        try:
            self.write_plan(open_plan(self.paths[at]))
        except ValueError as error:
            desk.notice = str(error)

    def new_plan(self) -> None:
        self.app.push_screen(self._opens.new_plan(), self.write_plan)

    def ask_clock(self) -> None:
        self.app.push_screen(self._opens.clock(), self.run_clock)

    def run_clock(self, segment: Segment | None) -> None:
        """Run this, without a plan; None: the coach went back."""
        if segment is not None:
            self.dismiss(segment)

    def write_plan(self, plan: "PlanOnDisk | None") -> None:
        """Open the editor on this plan; None opens nothing."""
        if plan is not None:
            self.app.push_screen(self._opens.editor(plan, self.club), self.written)

    def written(self, said: str | None) -> None:
        """Back from the editor."""
        self.desk.notice = said or ""
        self.read_again()

    def read_again(self) -> None:
        """Read the list anew."""
        self.paths = plan_paths(self.folder)
        self.desk.plans = [unread(path) for path in self.paths]
        self.read_plans()
        self.view.repaint()
