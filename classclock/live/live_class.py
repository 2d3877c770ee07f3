"""One class as it runs: commands in, events out.

Every event is written to the journal before anything shows it, and the record is what the events
fold to; the screens, a rehearsal and a rejoined class all come through here. What is allowed when
is decided in `tally/`, by pure functions: this is the shell that knows the time and the journal.
"""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, assert_never

from msgspec import Struct
from msgspec.structs import astuple, replace

from classclock.clock.class_clock import ClassClock
from classclock.live.recorder import Recorder
from classclock.live.standing_class import StandingClass
from classclock.plan.formats.fit import Fit
from classclock.plan.model import Plan
from classclock.planning.decide_ahead import decide_load, decide_option
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide import decide
from classclock.tally.decide_clock import decide_added, decide_clock
from classclock.tally.decide_fitting import decide_fitting
from classclock.tally.decide_groups import (
    AS_PLANNED,
    SharedWay,
    decide_swap,
    decide_way,
)
from classclock.tally.decide_people import (
    decide_back,
    decide_change,
    decide_effort,
    decide_joining,
    decide_leaving,
    decide_naming,
)
from classclock.tally.lanes import Choice, Mark, Person
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal
from classclock.tally.said import said
from classclock.units.loads import Load

if TYPE_CHECKING:
    from classclock.plan.model import Segment
    from classclock.strength.class_loads import ClassLoads


class Outcome(Struct, frozen=True):
    """What a command came to. `text` is for the coach; refused means nothing was recorded."""

    text: str = ""
    refused: bool = False
    events: tuple[ev.Event, ...] = ()


class LiveClass(StandingClass):
    """The shell round the pure record: it knows the time and the recorder, nothing else."""

    def __init__(
        self,
        clock: ClassClock,
        record: ClassRecord,
        recorder: Recorder,
        *,
        read_loads: "Callable[[Plan], ClassLoads] | None" = None,
    ) -> None:
        """`read_loads` works out who lifts what in a plan, from files: it may take a moment."""
        super().__init__(clock, record, read_loads=read_loads)
        self._recorder = recorder

    # -- doing -----------------------------------------------------------------------

    def do(
        self,
        command: cmd.CountCommand | cmd.ClockCommand | cmd.PeopleCommand,
        at: int | None = None,
    ) -> Outcome:
        """Carry out a command given at a moment of the class's clock (now, unless told)."""
        at = self.clock.now() if at is None else at
        if isinstance(command, cmd.CountCommand):
            return self._came(decide(self.record.sheet, command, at))
        if isinstance(command, cmd.PeopleCommand):
            return self._of_people(command)
        if isinstance(command, cmd.Start) and self.record.segment.lift is not None:
            self.plan_loads()
        return self._came(decide_clock(self.record, command, at, loads=self.loads))

    def add_person(self, newcomer: Person) -> Outcome:
        """Take someone in; late while a piece runs."""
        joining = decide_joining(self.record, newcomer, self.clock.now(), self.loads)
        return self._recorded(*joining.events, text=joining.text)

    def name_visitor(
        self, person_id: str, name: str, marks: Sequence[Mark] | None = None
    ) -> Outcome:
        """Say who a visitor is; `marks` are those that the book has of them."""
        was = {person.id: person.name for person in self.record.people}
        decided = decide_naming(self.record, person_id, name, self.clock.now(), marks)
        if isinstance(decided, Refusal):
            return self._came(decided)
        return self._recorded(decided, text=f"{was[person_id]} is {decided.person.name}")

    def leave(self, person_id: str) -> Outcome:
        """Someone is gone: no lane from here on, what they did stands."""
        return self._came(decide_leaving(self.record, person_id, self.clock.now()))

    def back(self, person_id: str) -> Outcome:
        """Who had left is here again; late while a piece runs."""
        joining = decide_back(self.record, person_id, self.clock.now(), self.loads)
        if isinstance(joining, Refusal):
            return self._came(joining)
        return self._recorded(*joining.events, text=joining.text)

    def change_person(self, person: Person) -> Outcome:
        """Another name, key or mark for the person of this id."""
        return self._came(decide_change(self.record, person, self.clock.now()))

    def share_so(self, segment: int, way: SharedWay = AS_PLANNED) -> Outcome:
        """Before a segment starts: all that is shared in it, in this way, or as planned."""
        outcome = self._came(decide_way(self.record, segment, way, self.clock.now()))
        return replace(outcome, text=outcome.text or "as it was")

    def swap_places(self, first: str, second: str) -> Outcome:
        """Two people of the segment on the board change places in its partners or teams."""
        decided = decide_swap(self.record, first, second, self.clock.now())
        if isinstance(decided, Refusal):
            return self._came(decided)
        names = {person.id: person.name for person in self.record.people}
        text = f"{names[first]} and {names[second]} have changed places"
        return self._recorded(*decided, text=text)

    def fit(self, segment: int, fit: Fit | None) -> Outcome:
        """Between segments: this one is so short, or left out; None: as planned again."""
        return self._came(decide_fitting(self.record, segment, fit, self.clock.now()))

    def choose(self, person_id: str, segment: int, choice: Choice) -> Outcome:
        """Before a segment starts: what this person modifies in it."""
        now = self.clock.now()
        return self._recorded(ev.OptionChosen(now, person_id, segment, *astuple(choice)))

    def choose_load(
        self, person_id: str, segment: int, set_number: int | None, load: Load | None
    ) -> Outcome:
        """Before a segment starts: what this person is to lift in a set (None: in every one).

        A load of None is as planned again.
        """
        if self.record.plan.segment[segment].lift is not None:
            self.plan_loads()
        asked = ev.LoadChosen(self.clock.now(), person_id, segment, set_number, load)
        decided = decide_load(self.record, asked, self.loads)
        if isinstance(decided, Refusal):
            return self._came(decided)
        outcome = self._recorded(*decided.events)
        return replace(outcome, text="; ".join((outcome.text, *decided.remarks)))

    def start_clock(self, segment: "Segment") -> Outcome:
        """Count in a segment that the plan hasn't: it runs before the one on the board."""
        return self._came(decide_added(self.record, segment, self.clock.now()))

    def acknowledge(self, person_id: str, segment: int, text: str) -> Outcome:
        """The coach has read this flag on a person's loads."""
        return self._recorded(ev.FlagAcknowledged(self.clock.now(), person_id, segment, text))

    def record_event(self, event: ev.Event) -> Outcome:
        """Write one event, fold it, and say it."""
        return self._recorded(event)

    def choose_option(self, person_id: str, option: int) -> Outcome:
        """Before the segment on the board starts: an option by its number there; 0: as written."""
        return self._came(decide_option(self.record, person_id, option, self.clock.now()))

    # -- inside ----------------------------------------------------------------------

    def _of_people(self, command: cmd.PeopleCommand) -> Outcome:
        """What is said of somebody between pieces."""
        index = self.record.chosen.segment
        match command:
            case cmd.SayGone(person=person):
                return self.leave(person)
            case cmd.SayBack(person=person):
                return self.back(person)
            case cmd.ChooseOption(person=person, option=option):
                return self.choose_option(person, option)
            case cmd.ChooseLoad(person=person, load=amount, set_number=number):
                if not amount:
                    return self._came(Refusal("0 is no load: type what is lifted, as in 80n"))
                return self.choose_load(person, index, number or 1, Load(amount, self.record.unit))
            case cmd.SwapPlaces(person=person, other=other):
                return self.swap_places(person, other)
            case cmd.SayEffort(person=person, effort=effort):
                return self._came(decide_effort(self.record, person, effort, self.clock.now()))
            case _:
                assert_never(command)

    def _came(self, decided: ev.Event | tuple[ev.Event, ...] | Refusal) -> Outcome:
        if isinstance(decided, Refusal):
            return Outcome(decided.text, refused=True)
        return self._recorded(*(decided if isinstance(decided, tuple) else (decided,)))

    def _recorded(self, *events: ev.Event, text: str = "") -> Outcome:
        last_said = ""
        for event in events:
            number = self._recorder.append(event)
            self.record = self.record.apply(number, event)
            last_said = said(event, self.record) or last_said
        if self.loads is not None:
            self.plan_loads()
        return Outcome(text or last_said, events=events)
