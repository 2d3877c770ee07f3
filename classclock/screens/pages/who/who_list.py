"""Who is here, as the coach builds it up before a class. No screen, no clock of its own."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime, timedelta

from msgspec import UNSET, UnsetType
from msgspec.structs import replace

from classclock.book.asking.known_people import KnownPerson
from classclock.book.asking.people_reading import known_as
from classclock.book.people_ids import drawn_id, new_id
from classclock.plan.model import Plan, is_piece
from classclock.screens.pages.who.who_choices import WhoChoices
from classclock.screens.people.marks import with_mark_turned
from classclock.screens.people.person_line import PersonLine, found_lines
from classclock.tally.lane_keys import assign_keys, propose_key
from classclock.tally.lanes import Choice, Mark, Person, Portion
from classclock.tally.lineup import draw_lanes
from classclock.tally.visitors import numbered, visitor
from classclock.units.loads import Unit
from classclock.units.names import is_unnamed, name_key, typed_twice

_STEP = timedelta(minutes=5)
_CHOSEN_HERE = 1_000_000
"""Classes: a key that the coach gives here outdoes any habit."""


class WhoList:
    def __init__(
        self,
        plan: Plan,
        unit: Unit,
        known: tuple[KnownPerson, ...],
        ends: datetime,
        draw: Callable[[], str] = drawn_id,
    ) -> None:
        """`known` are those who came to earlier classes; `ends` is when the class does.

        `draw` gives ids to who is new.
        """
        self._draw = draw
        self.plan, self.unit = plan, unit
        self.known, self.ends = known, ends
        self.people: tuple[Person, ...] = ()
        self.choices = WhoChoices(plan, unit)
        self.marked: dict[tuple[str, Mark], bool] = {}
        """Marks that the coach set or took off here, by the person's id."""
        self._own_keys: set[str] = set()
        """The ids of those whose key was chosen here."""

    # -- finding -------------------------------------------------------------------

    def entries(self, text: str) -> tuple[PersonLine, ...]:
        """Those who match what is typed; with nothing typed all, those who are here first."""
        here = [PersonLine("here", one.id, one.name, one.key) for one in self.people]
        return found_lines(text, here, self.known)

    # -- coming and going ------------------------------------------------------------

    def toggle(self, entry: PersonLine) -> str:
        """Take somebody in, or out again; the id of who came, empty if they went."""
        if entry.kind == "here":
            self.people = tuple(person for person in self.people if person.id != entry.id)
            return ""
        if entry.kind == "known":
            known = self._known(entry.id)
            marks = known.marks if known is not None else ()
            newcomer = "newcomer" in marks
            return self._take_in(
                Person(entry.id, entry.name, entry.key, newcomer=newcomer, marks=marks)
            )
        taken = {known.id for known in self.known} | {person.id for person in self.people}
        one = visitor(new_id(taken, self._draw))
        if is_unnamed(entry.name):
            return self._take_in(numbered(one, self.people))
        return self._take_in(replace(one, name=entry.name, visitor=UNSET))

    def take_in_all(self, names: Sequence[str]) -> str:
        """Take in everybody of these names, known or new; why nobody was, empty where all are."""
        here = {name_key(person.name) for person in self.people}
        if (twice := typed_twice(names)) is not None:
            return f"{twice} is typed twice: give one an initial, as in {twice} B"
        for name in names:
            if name_key(name) in here and not is_unnamed(name):
                return f"{name} is here already: take the name out, or give an initial"
        for name in names:
            self.toggle(self._line_of(name))
        return ""

    def _line_of(self, name: str) -> PersonLine:
        """Whoever of the known has this name and isn't here, or somebody new."""
        one = None if is_unnamed(name) else known_as(name, self.known)
        if one is None or any(person.id == one.id for person in self.people):
            return PersonLine("new", "", name)
        return PersonLine("known", one.id, one.name, one.key)

    def other_spelling(self, ident: str) -> KnownPerson | None:
        """Somebody else in the book whose name is the same but for its spelling."""
        name = self.person(ident).name
        others = (one for one in self.known if one.id != ident and one.name != name)
        return next((one for one in others if name_key(one.name) == name_key(name)), None)

    def know(self, known: tuple[KnownPerson, ...]) -> bool:
        """Who came to earlier classes; whether any of them had been taken for somebody new."""
        self.known = known
        here = {person.id for person in self.people}
        taken_for_new = [
            (person, one)
            for person in self.people
            if self._known(person.id) is None
            and not person.visitor
            and (one := known_as(person.name, known)) is not None
            and one.id not in here
        ]
        for person, one in taken_for_new:
            self.toggle(PersonLine("here", person.id, person.name, person.key))
            self.toggle(PersonLine("known", one.id, one.name, one.key))
        return bool(taken_for_new)

    def _take_in(self, person: Person) -> str:
        self.people, _ = assign_keys((*self.people, person), self._classes())
        known = self._known(person.id)
        if known is not None:
            self.choices.recall(known)
        return person.id

    # -- changing --------------------------------------------------------------------

    def give_key(self, ident: str, letter: str) -> str:
        """Give somebody this key; whoever had it gets another. What to say of it."""
        person = self.person(ident)
        had = next((one for one in self.people if one.key == letter and one.id != ident), None)
        self._put(replace(person, key=letter))
        self._own_keys.add(ident)
        if had is None:
            return f"{person.name}: key {letter}"
        free = propose_key(had.name, {one.key for one in self.people})
        self._put(replace(had, key=free))
        return f"{person.name}: key {letter}; {had.name} has {free} now"

    def rename(self, ident: str, name: str) -> str:
        """Give somebody another name on the wall; what to say of it.

        A visitor who gets one is whoever has it in the book, or somebody new.
        """
        person = self.person(ident)
        if is_unnamed(name):
            return ""  # a visitor is numbered, and nobody else is called so
        line = self._line_of(name)
        if not person.visitor or line.kind == "new":
            self._put(replace(person, name=name, visitor=UNSET))
            return ""
        self.people = tuple(one for one in self.people if one.id != ident)
        self.toggle(line)
        self.choices.hand_on(ident, line.id)
        return ""

    def toggle_mark(self, ident: str, mark: Mark) -> None:
        changed = with_mark_turned(self.person(ident), mark)
        self._put(changed)
        self.marked[ident, mark] = mark in changed.marks

    def move_end(self, steps: int) -> None:
        """The class's end, five minutes later or earlier a step."""
        self.ends += steps * _STEP

    def agree(self, ident: str, portions: Mapping[int, Portion | UnsetType]) -> None:
        """Let somebody do so much of these segments; unsaid is all of it."""
        for index, portion in portions.items():
            self.choices.agree(ident, index, portion)

    # -- reading ---------------------------------------------------------------------

    def choice(self, ident: str, segment: int) -> Choice:
        """What somebody modifies in a segment."""
        return self.choices.made.get((segment, ident), Choice())

    def to_choose(self) -> range:
        """The segments for which something can be chosen: before a class all of them."""
        return range(len(self.plan.segment))

    def person(self, ident: str) -> Person:
        return next(person for person in self.people if person.id == ident)

    def away(self, ident: str, today: date) -> int | None:
        """How many days ago somebody was last here; None is not known."""
        known = self._known(ident)
        return None if known is None else (today - known.last).days

    def heats(self) -> int:
        """In how many heats the fullest piece runs."""
        pieces = [segment for segment in self.plan.segment if is_piece(segment)]
        lanes = [lane.heat for piece in pieces for lane in draw_lanes(piece, self.people, {})]
        return max(lanes, default=1)

    def hindrance(self) -> str:
        """Why the class can't begin yet, and what to do; empty if it can."""
        if not self.people:
            return "nobody is here yet: type a name, then enter"
        twice = typed_twice(person.name for person in self.people)
        if twice is not None:
            return (
                f"two are called {twice}: highlight one, then ctrl+e and an initial, "
                f"as in {twice} B"
            )
        return ""

    # -- inside ------------------------------------------------------------------------

    def _put(self, changed: Person) -> None:
        self.people = tuple(changed if one.id == changed.id else one for one in self.people)

    def _known(self, ident: str) -> KnownPerson | None:
        return next((known for known in self.known if known.id == ident), None)

    def _classes(self) -> dict[str, int]:
        classes = {known.id: known.classes for known in self.known}
        return classes | dict.fromkeys(self._own_keys, _CHOSEN_HERE)


def likely_end(now: datetime, length_ms: int) -> datetime:
    """When a class that begins about now ends, to the nearest five minutes."""
    end = now + timedelta(milliseconds=length_ms)
    midnight = end.replace(hour=0, minute=0, second=0, microsecond=0)
    return midnight + round((end - midnight) / _STEP) * _STEP
