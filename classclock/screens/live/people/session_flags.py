"""What the coach should know of those who are in the class that runs, behind F7."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from msgspec import UnsetType
from msgspec.structs import replace

from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.plan.model import Plan
from classclock.planning.modifiable import not_begun
from classclock.screens.people.people_flags import PeopleFlags, ReadFlags, read_flags
from classclock.tally import events as ev
from classclock.tally.lanes import Choice, Person, Portion
from classclock.units.loads import Unit


class SessionFlags:
    """The people of a session with what each chose, and their flags."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._agreed: list[ev.Event] = []
        self.flags = PeopleFlags(self, session.club.in_class.next_step_after)

    def less(self, ident: str) -> Outcome:
        """Give somebody less, as it is proposed, or take it back."""
        self._agreed.clear()
        said = self.flags.less(ident)
        return Outcome(said, events=tuple(self._agreed))

    def read(self) -> ReadFlags | None:
        """What the book says of whom nothing has been read; None of nobody. For a thread."""
        people = self.flags.to_read()
        if not people:
            return None
        folder, began = self._session.settings.parent, self._session.started
        enough = self.flags.next_step_after
        return read_flags(folder, people, self.plan, datetime.fromisoformat(began), enough)

    # -- who is here, as the flags ask for it --------------------------------------------

    @property
    def plan(self) -> Plan:
        return self._session.live.record.plan

    @property
    def unit(self) -> Unit:
        return self._session.live.record.unit

    @property
    def people(self) -> Sequence[Person]:
        return self._session.live.record.here

    def choice(self, ident: str, segment: int) -> Choice:
        return self._session.live.record.choice(ident, segment)

    def to_choose(self) -> Sequence[int]:
        return not_begun(self._session.live.record)

    def agree(self, ident: str, portions: Mapping[int, Portion | UnsetType]) -> None:
        for index, portion in portions.items():
            choice = replace(self.choice(ident, index), portion=portion)
            self._agreed += self._session.live.choose(ident, index, choice).events
