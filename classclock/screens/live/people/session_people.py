"""Who is here in the class that runs: what the list asks, carried out."""

import re
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from msgspec.structs import replace

from classclock.book.asking.known_people import KnownPerson, options_again
from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.planning.modifiable import Modifiable, not_begun
from classclock.screens.live import class_actions
from classclock.screens.live.own_or_wall import OwnScreen
from classclock.screens.live.people.session_flags import SessionFlags
from classclock.screens.people.marks import with_mark_turned
from classclock.screens.people.people_flags import PeopleFlags
from classclock.tally import commands as cmd
from classclock.tally.class_lineup import sharing_a_lane
from classclock.tally.lanes import Choice, Mark, Person
from classclock.tally.record import ClassRecord
from classclock.units.loads import parse_load
from classclock.wall.between.here_content import HereContent, here_content

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads

_SET = re.compile(r"(?:(\d{1,2}):)?(.*)", re.ASCII)
_NO_PIECE = Outcome("nothing is left to choose in this class", refused=True)


class SessionPeople:
    def __init__(
        self,
        session: Session,
        own: OwnScreen,
        *,
        look_up: Callable[[], None],
        keep_marks: Callable[[], None],
        look_at: Callable[["SessionPeople"], object],
    ) -> None:
        """`own` says who sees the list.

        `look_up` has the club's names read, `look_at` the flags, `keep_marks` what was marked.
        All of them in a thread.
        """
        self._session, self._own = session, own
        self._look_up, self._keep_marks = look_up, keep_marks
        self._look_at = look_at
        self.flagged = SessionFlags(session)
        self._shown: tuple[ClassRecord, ClassLoads | None, HereContent] | None = None

    @property
    def mirrored(self) -> bool:
        return self._own.mirrored

    @property
    def known(self) -> Sequence[KnownPerson]:
        return self._session.known

    @property
    def all_known(self) -> bool:
        return self._session.all_known

    def content(self) -> HereContent:
        """Made anew where the class has changed since."""
        live = self._session.live
        shown = self._shown
        if shown is None or shown[0] is not live.record or shown[1] is not live.loads:
            shown = self._shown = (live.record, live.loads, here_content(live))
        return shown[2]

    def look_up(self) -> None:
        if not self.all_known:
            self._look_up()

    def take_in(self, name: str, known: KnownPerson | None = None) -> Outcome:
        if known is None:
            return class_actions.take_in(self._session, name, self.known)
        return self._recalled(class_actions.take_in(self._session, name, (known,)), known)

    def leave(self, ident: str) -> Outcome:
        came = self._session.live.leave(ident)
        name = self._person(ident).name
        words = f"{name} has left: no lane from here on"
        return came if came.refused else replace(came, text=words)

    def back(self, ident: str) -> Outcome:
        return self._session.live.back(ident)

    def rename(self, ident: str, name: str) -> Outcome:
        person = self._person(ident)
        if person.visitor:
            named = class_actions.name_visitor(self._session, ident, name, self.known)
            self._keep_marks()
            return named
        return self._session.live.change_person(replace(person, name=name))

    def give_key(self, ident: str, letter: str) -> Outcome:
        return self._session.live.change_person(replace(self._person(ident), key=letter))

    def use_option(self, ident: str, number: int) -> Outcome:
        return self._choose(ident, lambda piece, choice: piece.toggled(choice, number))

    def next_load(self, ident: str) -> Outcome:
        return self._choose(ident, Modifiable.with_next_load)

    def set_load(self, ident: str, written: str) -> Outcome:
        piece, live = self.content().piece, self._session.live
        match = _SET.fullmatch(written)
        if piece is None or match is None:
            return _NO_PIECE
        try:
            load = parse_load(match[2], live.record.unit) if match[2].strip() else None
        except ValueError as error:
            return Outcome(str(error), refused=True)
        return live.choose_load(ident, piece.index, int(match[1]) if match[1] else None, load)

    def turn_mark(self, ident: str, mark: Mark) -> Outcome:
        person = with_mark_turned(self._person(ident), mark)
        on = mark in person.marks
        came = self._session.live.change_person(person)
        if came.refused:
            return came
        self._session.remember_mark(ident, mark, on=on)
        self._keep_marks()
        return replace(came, text=f"{person.name}: {'set' if on else 'taken off'}")

    @property
    def flags(self) -> PeopleFlags:
        return self.flagged.flags

    def look_at(self) -> None:
        self._look_at(self)

    def less(self, ident: str) -> Outcome:
        return self.flagged.less(ident)

    def swap(self, ident: str, other: str) -> Outcome:
        return self._session.live.do(cmd.SwapPlaces(ident, other))

    def _person(self, ident: str) -> Person:
        return next(one for one in self._session.live.record.people if one.id == ident)

    def _choose(self, ident: str, change: Callable[[Modifiable, Choice], Choice]) -> Outcome:
        piece, live = self.content().piece, self._session.live
        if piece is None:
            return _NO_PIECE
        choice = change(piece, live.record.choice(ident, piece.index))
        together = sharing_a_lane(live.record, ident, piece.index)
        came = [live.choose(member, piece.index, choice) for member in together]
        return Outcome(events=tuple(event for one in came for event in one.events))

    def _recalled(self, came: Outcome, known: KnownPerson) -> Outcome:
        """With what they used last time in each piece to come, as at the first "who is here"."""
        if came.refused:
            return came
        live, events = self._session.live, came.events
        for index in not_begun(live.record):
            options = options_again(known, live.record.plan.segment[index])
            if any(options):
                events += live.choose(known.id, index, Choice(options)).events
        return replace(came, events=events)
