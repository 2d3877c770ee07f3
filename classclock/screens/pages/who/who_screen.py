"""Who is here, what each will modify, and when the class ends."""

from collections.abc import Callable, Collection
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from textual import events
from textual.screen import Screen

from classclock.book.asking.known_people import KnownPerson
from classclock.book.asking.people_reading import known_for, remembered
from classclock.plan.model import Plan
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.who.who_came import WhoCame, who_came
from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.screens.pages.who.who_drawing import draw_who
from classclock.screens.pages.who.who_list import WhoList, likely_end
from classclock.screens.people.people_flags import read_flags

if TYPE_CHECKING:
    from classclock.planning.cap_fit import Basis
    from classclock.planning.equipment_offers import EquipmentOffers
    from classclock.screens.pages.who.who_fit import FitHere


class WhoScreen(PageScreen[WhoCame | None]):
    """Ends with who came; None goes back."""

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
        self.desk = WhoDesk(
            who,
            mirrored=club.tv.mirrored,
            today=now.date(),
            next_step_after=club.in_class.next_step_after,
        )
        self.view = DrawnView(look, partial(draw_who, self.desk))
        self._now = now
        self._began = int(now.timestamp() * 1000)
        self._fit: FitHere | None = None
        self._knows = False
        """Whether it has been read who came to earlier classes."""

    def on_mount(self) -> None:
        # With years of results that takes a moment.
        self.read(self.know, partial(remembered, self.folder))
        if self.club.inventory:
            self.read(self.know_equipment, self._equipment)

    def know(self, known: tuple[KnownPerson, ...]) -> None:
        """Show who came to earlier classes."""
        self._knows = True
        self.desk.know(known)

    def know_equipment(self, offers: "EquipmentOffers") -> None:
        """Say what is short."""
        self.desk.sharing.offers = offers

    def _equipment(self) -> "EquipmentOffers":
        from classclock.club.movements import club_library  # noqa: PLC0415  few clubs count
        from classclock.planning.equipment_offers import EquipmentOffers  # noqa: PLC0415  as there

        library, _ = club_library(self.folder)  # what is wrong with it is said at the start
        return EquipmentOffers(self.club, library)

    def take(self, sign: str) -> bool:
        if sign == "<f6>":
            self.open_chart()
            return False
        step = self.desk.sign(sign)
        if step == "board" and not self._knows:
            names = [person.name for person in self.desk.who.people]
            self.know(known_for(self.folder, names))
        if step:
            self.dismiss(who_came(self.desk) if step == "board" else None)
            return True
        self.expect()
        return False

    @property
    def fit(self) -> "FitHere":
        """Made when somebody is here: nobody waits for it before."""
        if self._fit is None:
            from classclock.screens.pages.who.who_fit import FitHere  # noqa: PLC0415  see above

            self._fit = FitHere(self.desk.who, self.folder, self._began)
        return self._fit

    def expect(self) -> None:
        """Say what most here would do; who has just come is read first, in a thread."""
        if not self.desk.who.people:
            return
        flags, plan = self.desk.flags, self.desk.who.plan
        if people := flags.to_read():
            asked = (self.folder, people, plan, self._now, flags.next_step_after)
            self.read(flags.learn, partial(read_flags, *asked))
        self.desk.expected = self.fit.words()
        if people := self.fit.to_read():
            self.read(self.learn_fit, partial(self.fit.read, people))

    def learn_fit(self, read: "Basis") -> None:
        self.fit.learn(read)
        self.expect()

    def open_chart(self) -> None:
        """Everybody's bests; F6 there leaves out who isn't here."""
        self.app.push_screen(self._chart([person.id for person in self.desk.who.people]))

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        self.desk.paste(event.text)
        self.view.repaint()
