"""What the coach should know of those who are here before the class, behind F7.

Who comes back after weeks, and who may try the next option. For the coach's eyes alone; who asks
sees to it that no room reads along.
"""

from classclock.plan.station import Station
from classclock.planning.next_steps import NextStep
from classclock.report.step_words import step_asked, step_lines, step_words
from classclock.screens.pages.who.who_list import WhoList
from classclock.screens.pages.who.who_returns import ReturnsHere
from classclock.screens.pages.who.who_steps import StepsHere


class FlagsHere:
    def __init__(self, who: WhoList, next_step_after: int) -> None:
        """`next_step_after` is the club's."""
        self._who = who
        self._asked: set[str] = set()
        self.returns = ReturnsHere(who)
        self.steps = StepsHere(who, next_step_after)

    def to_read(self) -> list[str]:
        """The ids of those here of whom nothing has been read; each is given once."""
        people = [one.id for one in self._who.people if not one.visitor]
        unread = [ident for ident in people if ident not in self._asked]
        self._asked.update(unread)
        return unread

    def words(self, ident: str) -> str:
        """`first in 5 weeks`, `lower box next?`; empty where nothing is to be said."""
        steps = (step_asked(*one) for one in self._steps(ident))
        return ", ".join(filter(None, (self.returns.words(ident), *steps)))

    def count(self) -> int:
        """How many here there is something to say of."""
        return sum(bool(self.words(one.id)) for one in self._who.people)

    def lines(self, ident: str) -> tuple[str, ...]:
        """All there is to say of one of them, a heading first of each kind."""
        name, steps = self._who.person(ident).name, [step_words(*one) for one in self._steps(ident)]
        return (*self.returns.lines(ident), *(step_lines(name, steps) if steps else ()))

    def _steps(self, ident: str) -> tuple[tuple[Station, NextStep], ...]:
        """Who is in their first weeks does less, and is asked for nothing more."""
        return self.steps.of(ident, up=not self.returns.words(ident))
