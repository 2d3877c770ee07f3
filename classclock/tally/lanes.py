"""Who counts: people, and the lanes they take in a piece.

Journals hold these. A field of a later version is refused when it is read: skipped, it could make
another lane of it.
"""

from typing import Literal

from msgspec import UNSET, Struct, UnsetType
from msgspec.structs import replace

from classclock.units.loads import Load

Mark = Literal["under 18", "newcomer", "back after weeks", "off the wall"]
"""What reminds the coach. Who is off the wall keeps loads, rank and bests to themselves."""


class Person(Struct, frozen=True, forbid_unknown_fields=True):
    """An athlete as the class knows them. `name` is the display name; `key` a letter a to z."""

    id: str
    name: str
    key: str
    newcomer: bool = False
    marks: tuple[Mark, ...] = ()
    visitor: bool | UnsetType = UNSET
    """True of who counts without a name, and is never in the book; else unsaid, as of old."""

    @property
    def off_the_wall(self) -> bool:
        return "off the wall" in self.marks


class Portion(Struct, frozen=True, omit_defaults=True, forbid_unknown_fields=True):
    """Less of a piece than the whole, as it was agreed with somebody: an option like any other."""

    name: str
    """What it is called: `about half: 4 rounds`; `about half` where the amounts say the rest."""
    percent: int = 100
    """How much of each station's amount, rounded down: of a set amount of work."""
    rounds: int | None = None
    """After so many it is enough, where there is no set amount."""


class Choice(Struct, frozen=True):
    """What a person modifies in a segment, chosen before it starts."""

    options: tuple[int, ...] = ()
    """For each station 0 (as written) or the number of the option, from 1; missing is 0."""
    load: str | None = None
    start_station: int = 0
    portion: Portion | UnsetType = UNSET


class Place(Struct, frozen=True, omit_defaults=True, forbid_unknown_fields=True):
    """Where some people begin who share equipment, together in one lane."""

    members: tuple[str, ...]
    """Their ids."""
    heat: int = 1
    start_station: int = 0
    options: tuple[int, ...] = ()
    """Station by station the option that they take for want of equipment; 0 is their own choice."""


class Sharing(Struct, frozen=True, forbid_unknown_fields=True):
    """How a class does a segment for which there isn't enough equipment."""

    way: str
    """In words, as it was offered."""
    places: tuple[Place, ...]


class Teams(Struct, frozen=True):
    """Who shares a tally in a segment."""

    groups: tuple[tuple[str, ...], ...]
    """Their ids; the first one's key is the team's."""
    how: str = ""
    """How they came about, in words."""


class Lane(Struct, frozen=True, forbid_unknown_fields=True):
    """One row in a piece: an athlete, or a pair or team that shares a tally."""

    id: str
    name: str
    key: str
    members: tuple[str, ...]
    """The ids of the people in it."""
    options: tuple[int, ...] = ()
    """For each station 0 (as written) or the number of the option it uses, from 1; missing is 0."""
    own_options: tuple[int, ...] | None = None
    """The same if there were equipment enough; None where it makes no difference."""
    load: str | None = None
    """Which of the plan's loads by name; all of them are as written."""
    start_station: int = 0
    heat: int = 1
    late: bool = False
    loads: tuple[Load | None, ...] = ()
    """The planned load of each set, where it is the athlete's own; None is not known."""
    heaviest: Load | None = None
    """The heaviest that the athlete has handled in this lift, where it is known."""
    portion: Portion | UnsetType = UNSET
    """Less than the whole piece; unsaid where the lane does all of it."""

    def called(self, person: Person) -> "Lane":
        """The lane with the name that one of those in it has now."""
        if person.id not in self.members:
            return self
        names = self.name.split(" + ") if len(self.members) > 1 else [self.name]
        if len(names) != len(self.members):
            return self  # a name with a plus in it: nobody can tell whose part is whose
        at = self.members.index(person.id)
        name = " + ".join([*names[:at], person.name, *names[at + 1 :]])
        return self if name == self.name else replace(self, name=name)

    def option(self, station: int) -> int:
        return self.options[station] if station < len(self.options) else 0

    @property
    def modified(self) -> bool:
        return any(self.options) or bool(self.portion)
