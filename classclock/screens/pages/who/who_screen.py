"""Who is here, what each will modify, and when the class ends."""

from collections.abc import Callable, Collection, Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct
from textual import events, work
from textual.screen import Screen

from classclock.book.asking.known_people import KnownPerson
from classclock.book.asking.people_reading import remembered
from classclock.plan.model import Plan
from classclock.plan.settings.club import Club
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.screens.pages.who.who_drawing import WhoPage, draw_who
from classclock.screens.pages.who.who_list import WhoList, likely_end
from classclock.tally.lanes import Choice, Mark, Person, Sharing

if TYPE_CHECKING:
    from classclock.planning.cap_fit import Basis
    from classclock.screens.pages.who.who_fit import FitHere


class WhoCame(Struct, frozen=True):
    people: tuple[Person, ...]
    choices: Mapping[tuple[int, str], Choice]
    """What each modifies, by segment and person's id; only where something was chosen."""
    ends: str
    """When the class ends, RFC 3339 with offset."""
    shared: Mapping[int, Sharing]
    """How equipment is shared, by segment; only where that was chosen."""
    marked: Mapping[tuple[str, Mark], bool]
    """Marks that the coach set or took off, by person's id; to be remembered."""


class WhoView(Painted):
    def __init__(self, look: Look, page: WhoPage) -> None:
        super().__init__(look)
        self.page = page

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_who(self.page, columns, rows, self.look)


class WhoScreen(PageScreen[WhoCame | None]):
    """Ends with who came; None goes back."""

    view: WhoView

    def __init__(
        self,
        look: Look,
        plan: Plan,
        *,
        folder: Path,
        club: Club,
        now: datetime,
        chart: Callable[[Collection[str]], Screen[None]],
    ) -> None:
        """`folder` is the club's; `now` the time of day, with its offset.

        `chart` makes the page of everybody's bests, which F6 there narrows to these ids.
        """
        super().__init__()
        self.folder, self.club = folder, club
        self._chart = chart
        who = WhoList(plan, club.unit, (), likely_end(now, club.class_length))
        self.desk = WhoDesk(who, mirrored=club.tv.mirrored)
        self.view = WhoView(look, WhoPage(self.desk, now))
        self._fit: FitHere | None = None

    def on_mount(self) -> None:
        self.remember()
        if self.club.inventory:
            self.learn_equipment()

    @work(thread=True, exit_on_error=False)
    def remember(self) -> None:
        """Read who came to earlier classes; with years of results that takes a moment."""
        known = remembered(self.folder)
        self.app.call_from_thread(self.know, known)

    @work(thread=True, exit_on_error=False)
    def learn_equipment(self) -> None:
        """Read what the movements need, so that it can be said what is short."""
        from classclock.club.movements import club_library  # noqa: PLC0415  few clubs count
        from classclock.planning.equipment_offers import EquipmentOffers  # noqa: PLC0415  as there

        library, _ = club_library(self.folder)  # what is wrong with it is said at the start
        self.desk.sharing.offers = EquipmentOffers(self.club, library)
        self.app.call_from_thread(self.view.repaint)

    def know(self, known: tuple[KnownPerson, ...]) -> None:
        self.desk.who.known = known
        self.view.repaint()

    def take(self, sign: str) -> bool:
        if sign == "<f6>":
            self.open_chart()
            return False
        step = self.desk.sign(sign)
        if step:
            self.dismiss(self.came() if step == "board" else None)
            return True
        self.expect()
        return False

    @property
    def fit(self) -> "FitHere":
        """Made when somebody is here: nobody waits for it before."""
        if self._fit is None:
            from classclock.screens.pages.who.who_fit import FitHere  # noqa: PLC0415  see above

            began = int(self.view.page.today.timestamp() * 1000)
            self._fit = FitHere(self.desk.who, self.folder, began)
        return self._fit

    def expect(self) -> None:
        """Say what most here would do; who has just come is read first, in a thread."""
        if not self.desk.who.people:
            return
        self.desk.expected = self.fit.words()
        if people := self.fit.to_read():
            self.read_fit(people)

    @work(thread=True, exit_on_error=False)
    def read_fit(self, people: Sequence[str]) -> None:
        self.app.call_from_thread(self.learn_fit, self.fit.read(people))

    def learn_fit(self, read: "Basis") -> None:
        self.fit.learn(read)
        self.expect()
        self.view.repaint()

    def open_chart(self) -> None:
        """Everybody's bests; F6 there leaves out who isn't here."""
        self.app.push_screen(self._chart([person.id for person in self.desk.who.people]))

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        self.desk.paste(event.text)
        self.view.repaint()

    def came(self) -> WhoCame:
        who = self.desk.who
        here = {person.id for person in who.people}
        chosen = {
            key: choice
            for key, choice in who.choices.items()
            if key[1] in here and choice != Choice()
        }
        marked = {key: on for key, on in who.marked.items() if key[0] in here}
        ends = who.ends.isoformat(timespec="seconds")
        every = ((index, who.sharing(index)) for index in who.shared)
        shared = {index: sharing for index, sharing in every if sharing is not None}
        return WhoCame(who.people, chosen, ends, shared, marked)
