"""Who is here, as the coach builds it up before a class. No screen, no clock of its own."""

from collections import Counter
from datetime import datetime, timedelta
from typing import Literal, get_args

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.book.asking.known_people import KnownPerson, options_again
from classclock.book.asking.people_reading import new_id
from classclock.plan.model import Plan, is_piece
from classclock.screens.pages.who.modifiable import Modifiable, modifiable
from classclock.tally.lane_keys import assign_keys, propose_key
from classclock.tally.lanes import Choice, Mark, Person, Sharing
from classclock.tally.lineup import draw_lanes
from classclock.units.loads import Unit
from classclock.units.searching import found

MARKS: tuple[Mark, ...] = get_args(Mark)
_STEP = timedelta(minutes=5)
_CHOSEN_HERE = 1_000_000
"""Classes: a key that the coach gives here outdoes any habit."""


class Entry(Struct, frozen=True):
    """One line that can be highlighted."""

    kind: Literal["here", "known", "new"]
    id: str
    name: str
    key: str = ""


class WhoList(Struct):
    plan: Plan
    unit: Unit
    known: tuple[KnownPerson, ...]
    ends: datetime
    people: tuple[Person, ...] = ()
    choices: dict[tuple[int, str], Choice] = field(default_factory=dict)
    recalled: set[tuple[int, str]] = field(default_factory=set)
    """Choices that are as last time, unchanged."""
    shared: dict[int, Sharing] = field(default_factory=dict)
    """How equipment is shared, by segment, for those who were here when that was chosen."""
    own_keys: set[str] = field(default_factory=set)
    """The ids of those whose key was chosen here."""
    marked: dict[tuple[str, Mark], bool] = field(default_factory=dict)
    """Marks that the coach set or took off here, by the person's id."""

    # -- finding -------------------------------------------------------------------

    def entries(self, text: str) -> tuple[Entry, ...]:
        """Those who match what is typed; with nothing typed all, those who are here first."""
        here = {person.id for person in self.people}
        every = [Entry("here", person.id, person.name, person.key) for person in self.people]
        every += [
            Entry("known", known.id, known.name, known.key)
            for known in self.known
            if known.id not in here
        ]
        matching = found(text, every, lambda entry: (entry.name,))
        name = " ".join(text.split())
        return (*matching, Entry("new", "", name)) if name else matching

    # -- coming and going ------------------------------------------------------------

    def toggle(self, entry: Entry) -> str:
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
        ident = new_id(entry.name, taken)
        return self._take_in(Person(ident, entry.name, "", newcomer=True, marks=("newcomer",)))

    def _take_in(self, person: Person) -> str:
        self.people, _ = assign_keys((*self.people, person), self._classes())
        known = self._known(person.id)
        if known is not None:
            self._recall(known)
        return person.id

    def _recall(self, known: KnownPerson) -> None:
        """What they used last time in each piece, as far as the plan still offers it."""
        for piece in self.modifiable():
            options = options_again(known, piece.segment)
            if any(options):
                self.choices[piece.index, known.id] = Choice(options)
                self.recalled.add((piece.index, known.id))

    # -- changing --------------------------------------------------------------------

    def give_key(self, ident: str, letter: str) -> str:
        """Give somebody this key; whoever had it gets another. What to say of it."""
        person = self.person(ident)
        had = next((one for one in self.people if one.key == letter and one.id != ident), None)
        self._put(replace(person, key=letter))
        self.own_keys.add(ident)
        if had is None:
            return f"{person.name}: key {letter}"
        free = propose_key(had.name, {one.key for one in self.people})
        self._put(replace(had, key=free))
        return f"{person.name}: key {letter}; {had.name} has {free} now"

    def rename(self, ident: str, name: str) -> None:
        self._put(replace(self.person(ident), name=name))

    def toggle_mark(self, ident: str, mark: Mark) -> None:
        person = self.person(ident)
        marks = tuple(one for one in MARKS if (one in person.marks) != (one == mark))
        self._put(replace(person, marks=marks, newcomer="newcomer" in marks))
        self.marked[ident, mark] = mark in marks

    def toggle_option(self, ident: str, piece: Modifiable, number: int) -> None:
        """Use the piece's option of this number, or no longer; 0 is as written throughout."""
        choice = self.choice(piece, ident)
        options = [0] * len(piece.segment.station)
        if number:
            for station, option in enumerate(choice.options[: len(options)]):
                options[station] = option
            place, option = piece.menu[number - 1]
            options[place] = 0 if options[place] == option else option
        self._choose(ident, piece, replace(choice, options=tuple(options)))

    def next_load(self, ident: str, piece: Modifiable) -> None:
        """The next of the loads that the plan offers, then none."""
        choice = self.choice(piece, ident)
        offers = (None, *piece.loads)
        at = offers.index(choice.load) if choice.load in offers else 0
        self._choose(ident, piece, replace(choice, load=offers[(at + 1) % len(offers)]))

    def move_end(self, steps: int) -> None:
        """The class's end, five minutes later or earlier a step."""
        self.ends += steps * _STEP

    # -- reading ---------------------------------------------------------------------

    def modifiable(self) -> tuple[Modifiable, ...]:
        """The pieces in which there are options or loads to choose."""
        return modifiable(self.plan, self.unit)

    def person(self, ident: str) -> Person:
        return next(person for person in self.people if person.id == ident)

    def choice(self, piece: Modifiable, ident: str) -> Choice:
        return self.choices.get((piece.index, ident), Choice())

    def choices_in(self, segment: int) -> dict[str, Choice]:
        """What everybody modifies in a segment, by their ids."""
        return {
            ident: choice for (index, ident), choice in self.choices.items() if index == segment
        }

    def choice_words(self, piece: Modifiable, ident: str) -> str:
        """What somebody modifies in a piece; empty is as written, no load chosen."""
        choice = self.choice(piece, ident)
        names = [
            piece.segment.station[station].options[option - 1].name
            for station, option in enumerate(choice.options)
            if option
        ]
        again = ["as before"] if names and (piece.index, ident) in self.recalled else []
        return ", ".join([*names, *([choice.load] if choice.load else []), *again])

    def away(self, ident: str, today: datetime) -> int | None:
        """How many days ago somebody was last here; None is not known."""
        known = self._known(ident)
        return None if known is None else (today.date() - known.last).days

    def sharing(self, segment: int) -> Sharing | None:
        """How equipment is shared in a segment, as long as the same people are here."""
        sharing = self.shared.get(segment)
        if sharing is None:
            return None
        members = [ident for place in sharing.places for ident in place.members]
        return sharing if members == [person.id for person in self.people] else None

    def heats(self) -> int:
        """In how many heats the fullest piece runs."""
        pieces = [segment for segment in self.plan.segment if is_piece(segment)]
        lanes = [lane.heat for piece in pieces for lane in draw_lanes(piece, self.people, {})]
        return max(lanes, default=1)

    def hindrance(self) -> str:
        """Why the class can't begin yet, and what to do; empty if it can."""
        if not self.people:
            return "nobody is here yet: type a name, then enter"
        names = Counter(person.name.casefold() for person in self.people)
        for person in self.people:
            if names[person.name.casefold()] > 1:
                return (
                    f"two are called {person.name}: highlight one, then ctrl+e and an initial, "
                    f"as in {person.name} B"
                )
        return ""

    # -- inside ------------------------------------------------------------------------

    def _choose(self, ident: str, piece: Modifiable, choice: Choice) -> None:
        self.choices[piece.index, ident] = choice
        self.recalled.discard((piece.index, ident))

    def _put(self, changed: Person) -> None:
        self.people = tuple(changed if one.id == changed.id else one for one in self.people)

    def _known(self, ident: str) -> KnownPerson | None:
        return next((known for known in self.known if known.id == ident), None)

    def _classes(self) -> dict[str, int]:
        classes = {known.id: known.classes for known in self.known}
        return classes | dict.fromkeys(self.own_keys, _CHOSEN_HERE)


def likely_end(now: datetime, length_ms: int) -> datetime:
    """When a class that begins about now ends, to the nearest five minutes."""
    end = now + timedelta(milliseconds=length_ms)
    midnight = end.replace(hour=0, minute=0, second=0, microsecond=0)
    return midnight + round((end - midnight) / _STEP) * _STEP
