"""What the list of who is here asks of a class."""

from collections.abc import Sequence
from typing import Protocol

from classclock.book.asking.known_people import KnownPerson
from classclock.live.live_class import Outcome
from classclock.screens.people.people_flags import PeopleFlags
from classclock.tally.lanes import Mark
from classclock.wall.between.here_content import HereContent


class ClassPeople(Protocol):
    @property
    def mirrored(self) -> bool:
        """Whether the room sees the list: then it reads no mark."""

    @property
    def known(self) -> Sequence[KnownPerson]:
        """Who came to earlier classes, as far as that has been read."""

    @property
    def all_known(self) -> bool:
        """Whether it has been read who came to earlier classes."""

    def content(self) -> HereContent:
        """Who is here now."""

    def look_up(self) -> None:
        """Have it read who came to earlier classes; nothing waits for it."""

    def take_in(self, name: str, known: KnownPerson | None = None) -> Outcome:
        """Somebody comes: whom the club knows, or who has this name."""

    def leave(self, ident: str) -> Outcome:
        """They are gone."""

    def back(self, ident: str) -> Outcome:
        """Who was gone is here again."""

    def rename(self, ident: str, name: str) -> Outcome:
        """They are called so from now on."""

    def give_key(self, ident: str, letter: str) -> Outcome:
        """This letter is theirs from now on."""

    def use_option(self, ident: str, number: int) -> Outcome:
        """They use this option of the piece to come, or no longer; 0 is as written."""

    def next_load(self, ident: str) -> Outcome:
        """They use the next of the loads that the plan offers in the piece to come."""

    def set_load(self, ident: str, written: str) -> Outcome:
        """What they lift in the piece to come: `82.5`, or `3:82.5` in the third set."""

    def turn_mark(self, ident: str, mark: Mark) -> Outcome:
        """They are marked so, or no longer."""

    @property
    def flags(self) -> PeopleFlags:
        """What the coach should know of them, as far as that has been read."""

    def look_at(self) -> None:
        """Have it read what the coach should know; nothing waits for it."""

    def less(self, ident: str) -> Outcome:
        """They do less in the pieces to come, as is proposed, or all of it again."""

    def swap(self, ident: str, other: str) -> Outcome:
        """These two change places in the piece to come."""
