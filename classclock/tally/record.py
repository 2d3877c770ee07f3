"""A class as its events tell it: people, choices, the segment on the board, a sheet for each run.

The same fold serves a live class, a rehearsal, a rejoined class and a replay.
"""

from collections.abc import Callable, Mapping
from typing import Any, Literal, NamedTuple

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Plan, Segment, is_piece
from classclock.tally import events as ev
from classclock.tally.lanes import Choice, Person, Sharing
from classclock.tally.piece import Piece
from classclock.tally.sheet import Sheet
from classclock.units.loads import Unit

Phase = Literal["board", "count-in", "running", "held", "over", "closed"]


class RunKey(NamedTuple):
    """Which run of which segment: repeated on purpose it is another attempt."""

    segment: int
    attempt: int = 1
    heat: int = 1


class ClassRecord(Struct, frozen=True):
    """Everything known of a class after some of its events. `plan` is what its text reads as."""

    plan: Plan
    unit: Unit = "kg"
    plan_name: str = ""
    people: tuple[Person, ...] = ()
    ends: str | None = None
    stop: str = ""
    """The club's rule of when to stop: the first caution of every piece."""
    choices: Mapping[tuple[int, str], Choice] = field(default_factory=dict)
    acknowledged: frozenset[tuple[str, int, str]] = frozenset()
    """Flags that the coach has read: the person's id, the segment, the flag's text."""
    shared: Mapping[int, Sharing] = field(default_factory=dict)
    """How the people of a segment share equipment, where they do."""
    chosen: RunKey = field(default_factory=lambda: RunKey(0))
    runs: Mapping[RunKey, Sheet] = field(default_factory=dict)
    attempts: Mapping[int, int] = field(default_factory=dict)
    """How often each segment was begun anew on purpose; missing is once."""
    closed: bool = False

    @property
    def segment(self) -> Segment:
        return self.plan.segment[self.chosen.segment]

    @property
    def sheet(self) -> Sheet | None:
        """The sheet of the segment on the board, once it was started."""
        return self.runs.get(self.chosen)

    def phase(self, now: int) -> Phase:
        """Where the class is at this moment, in ms on its clock."""
        sheet = self.sheet
        if self.closed:
            return "closed"
        if sheet is None:
            return "board"
        if sheet.ended(now) is not None:
            return "over"
        if sheet.clock.elapsed(now) < 0:
            return "count-in"
        return "held" if sheet.clock.held else "running"

    def choice(self, person_id: str, segment: int) -> Choice:
        return self.choices.get((segment, person_id), Choice())

    def heats(self, key: RunKey) -> tuple[Sheet, ...]:
        """The sheets of all heats of one run of a segment, in order."""
        same = [run for run in self.runs if run[:2] == key[:2]]
        return tuple(self.runs[run] for run in sorted(same))

    def pieces(self) -> tuple[RunKey, ...]:
        """The runs of scored segments, each once, whatever its heats."""
        firsts = {run._replace(heat=1) for run in self.runs}
        return tuple(sorted(key for key in firsts if is_piece(self.plan.segment[key.segment])))

    def apply(self, number: int, event: ev.Event) -> "ClassRecord":
        """The record after one more event, the class's `number`th."""
        handler = FOLD.get(type(event))
        if handler is not None:
            return handler(self, number, event)
        if self.sheet is None:
            return self
        return self._with_sheet(self.sheet.apply(number, event))

    def _with_sheet(self, sheet: Sheet) -> "ClassRecord":
        return replace(self, runs={**self.runs, self.chosen: sheet})


# -- the fold: one function an event ---------------------------------------------


def _opened(record: ClassRecord, _: int, event: ev.ClassOpened) -> ClassRecord:
    return replace(
        record,
        plan_name=event.plan_name,
        people=event.people,
        ends=event.ends,
        stop=event.stop,
    )


def _person_added(record: ClassRecord, _: int, event: ev.PersonAdded) -> ClassRecord:
    return replace(record, people=(*record.people, event.person))


def _person_changed(record: ClassRecord, _: int, event: ev.PersonChanged) -> ClassRecord:
    changed = event.person
    people = tuple(changed if person.id == changed.id else person for person in record.people)
    return replace(record, people=people)


def _person_left(record: ClassRecord, _: int, event: ev.PersonLeft) -> ClassRecord:
    people = tuple(person for person in record.people if person.id != event.person_id)
    return replace(record, people=people)


def _option_chosen(record: ClassRecord, _: int, event: ev.OptionChosen) -> ClassRecord:
    choice = Choice(event.options, event.load, event.start_station)
    choices = {**record.choices, (event.segment, event.person_id): choice}
    return replace(record, choices=choices)


def _equipment_shared(record: ClassRecord, _: int, event: ev.EquipmentShared) -> ClassRecord:
    others = {index: way for index, way in record.shared.items() if index != event.segment}
    here = {} if event.sharing is None else {event.segment: event.sharing}
    return replace(record, shared={**others, **here})


def _flag_acknowledged(record: ClassRecord, _: int, event: ev.FlagAcknowledged) -> ClassRecord:
    flag = (event.person_id, event.segment, event.text)
    return replace(record, acknowledged=record.acknowledged | {flag})


def _end_moved(record: ClassRecord, _: int, event: ev.EndMoved) -> ClassRecord:
    return replace(record, ends=event.ends)


def _closed(record: ClassRecord, _: int, __: ev.ClassClosed) -> ClassRecord:
    return replace(record, closed=True)


def _segment_chosen(record: ClassRecord, _: int, event: ev.SegmentChosen) -> ClassRecord:
    attempt = record.attempts.get(event.segment, 1) + event.anew
    return replace(
        record,
        chosen=RunKey(event.segment, attempt, event.heat),
        attempts={**record.attempts, event.segment: attempt},
        closed=False,
    )


def _segment_started(record: ClassRecord, _: int, event: ev.SegmentStarted) -> ClassRecord:
    key = record.chosen._replace(segment=event.segment, heat=event.heat)
    segment = record.plan.segment[event.segment]
    sheet = Sheet.begin(Piece.of(segment, record.unit), timeline(segment), event)
    return replace(record, chosen=key, runs={**record.runs, key: sheet})


def _run_dropped(record: ClassRecord, _: int, __: ev.Event) -> ClassRecord:
    runs = {key: sheet for key, sheet in record.runs.items() if key != record.chosen}
    return replace(record, runs=runs)


FOLD: Mapping[type[ev.Event], Callable[[ClassRecord, int, Any], ClassRecord]] = {
    ev.ClassOpened: _opened,
    ev.PersonAdded: _person_added,
    ev.PersonChanged: _person_changed,
    ev.PersonLeft: _person_left,
    ev.OptionChosen: _option_chosen,
    ev.EquipmentShared: _equipment_shared,
    ev.FlagAcknowledged: _flag_acknowledged,
    ev.EndMoved: _end_moved,
    ev.ClassClosed: _closed,
    ev.SegmentChosen: _segment_chosen,
    ev.SegmentStarted: _segment_started,
    ev.CalledOff: _run_dropped,
    ev.Restarted: _run_dropped,
}
