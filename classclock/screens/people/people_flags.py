"""What the coach should know of those who are here, behind F7.

Who comes back after weeks, and who may try the next option. For the coach's eyes alone; who asks
sees to it that no room reads along.
"""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from classclock.club import folder as club_folder
from classclock.plan.model import Plan
from classclock.plan.station import Station
from classclock.planning.next_steps import NextStep
from classclock.report.step_words import step_asked, step_lines, step_words
from classclock.screens.people.people_here import PeopleHere
from classclock.screens.people.people_returns import ReturnsHere
from classclock.screens.people.people_steps import StepsHere

if TYPE_CHECKING:
    from datetime import datetime

    from classclock.book.asking.return_reading import Returns  # loads sqlalchemy
    from classclock.book.asking.step_reading import Uses


class ReadFlags(Struct, frozen=True):
    """What the book says of some people."""

    returns: "Returns"
    uses: "Uses"


class PeopleFlags:
    def __init__(self, here: PeopleHere, next_step_after: int) -> None:
        """`next_step_after` is the club's."""
        self._here, self.next_step_after = here, next_step_after
        self._asked: set[str] = set()
        self._returns = ReturnsHere(here)
        self._steps = StepsHere(here, next_step_after)

    def to_read(self) -> list[str]:
        """The ids of those here of whom nothing has been read; each is given once."""
        people = [one.id for one in self._here.people if not one.visitor]
        unread = [ident for ident in people if ident not in self._asked]
        self._asked.update(unread)
        return unread

    def learn(self, read: ReadFlags) -> None:
        """Take up what was read."""
        self._returns.learn(read.returns)
        self._steps.learn(read.uses)

    def words(self, ident: str) -> str:
        """`first in 5 weeks`, `lower box next?`; empty where nothing is to be said."""
        steps = (step_asked(*one) for one in self._steps_of(ident))
        return ", ".join(filter(None, (self._returns.words(ident), *steps)))

    def lines_for(self, ident: str | None, *, uncovered: bool) -> tuple[str, ...]:
        """What stands over the names, of whoever is lit; the first line is a heading.

        Where the room may read along it is only how many there are, and what to do.
        """
        count = self.count()
        if not count:
            return ()
        if not uncovered:
            return (f"{count} here to look at: turn the TV away or mute it, then ctrl+o",)
        person = next((one for one in self._here.people if one.id == ident), None)
        lines = () if person is None else self._lines(person.id, person.name)
        return lines or (f"{count} here to look at: up, down",)

    def count(self) -> int:
        """How many here there is something to say of."""
        return sum(bool(self.words(one.id)) for one in self._here.people)

    def less(self, ident: str) -> str:
        """Give somebody less, as it is proposed, or take it back; what to say of it."""
        name = next(one.name for one in self._here.people if one.id == ident)
        return self._returns.turn(ident, name)

    def _lines(self, ident: str, name: str) -> tuple[str, ...]:
        steps = [step_words(*one) for one in self._steps_of(ident)]
        return (*self._returns.lines(ident, name), *(step_lines(name, steps) if steps else ()))

    def _steps_of(self, ident: str) -> tuple[tuple[Station, NextStep], ...]:
        """Who is in their first weeks does less, and is asked for nothing more."""
        return self._steps.of(ident, up=not self._returns.words(ident))


def read_flags(
    folder: Path, people: Sequence[str], plan: Plan, now: "datetime", next_step_after: int
) -> ReadFlags:
    """Read it for these ids from the club's book; `now` is when the class begins.

    Loads sqlalchemy, and takes its time: for a thread.
    """
    from classclock.book.asking.return_reading import (  # noqa: PLC0415  see above
        ReturnQuestion,
        Returns,
        returns_for,
    )
    from classclock.book.asking.step_reading import (  # noqa: PLC0415  as there
        StepQuestion,
        Uses,
        uses_for,
    )

    if not club_folder.results(folder).is_dir():
        return ReadFlags(Returns(), Uses())
    began = int(now.timestamp() * 1000)
    return ReadFlags(
        returns_for(folder, ReturnQuestion(people, plan, now.date(), began)),
        uses_for(folder, StepQuestion(people, plan, began, next_step_after)),
    )
