"""A class as its events tell it: people, choices, the segment on the board, a sheet for each run.

The same fold serves a live class, a rehearsal, a rejoined class and a replay.
"""

from collections.abc import Mapping
from typing import Literal, NamedTuple, TypeVar, assert_never

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.plan.formats.fit import Fit
from classclock.plan.formats.timelines import length, timeline
from classclock.plan.model import Plan, Segment, is_piece
from classclock.plan.open_class import segment_of
from classclock.strength.chosen_loads import ChosenLoads, choose
from classclock.tally import events as ev
from classclock.tally.lanes import Choice, Person, Sharing, Teams
from classclock.tally.piece import Piece
from classclock.tally.sheet import Sheet
from classclock.units.loads import Unit

Told = TypeVar("Told")
Phase = Literal["board", "count-in", "running", "held", "over", "closed"]


class RunKey(NamedTuple):
    """Which run of which segment: repeated on purpose it is another attempt."""

    segment: int
    attempt: int = 1
    heat: int = 1


class Fitted(Struct, frozen=True):
    """A segment that was made shorter, or left out, so that the class ends in time."""

    fit: Fit
    planned: Segment
    """As the plan has it."""


class ClassRecord(Struct, frozen=True):
    """Everything known of a class after some of its events."""

    plan: Plan
    """What its text reads as, with the segments that were fitted as short as they are now.

    Behind them are those that were added.
    """
    unit: Unit = "kg"
    plan_name: str = ""
    people: tuple[Person, ...] = ()
    """Whoever came, in the order in which they did; who has left is among them."""
    left: Mapping[str, RunKey | None] = field(default_factory=dict)
    """Who is gone, by their id, and after which piece; None is before the first."""
    left_at: Mapping[str, int] = field(default_factory=dict)
    """Who is gone, by their id, and at which moment of the class."""
    efforts: Mapping[str, int] = field(default_factory=dict)
    """How hard the hour was for whom, 0 to 10, by their ids."""
    asks_effort: bool = False
    """Whether the last screen asks for it."""
    ends: str | None = None
    stop: str = ""
    """The club's rule of when to stop: the first caution of every piece."""
    choices: Mapping[tuple[int, str], Choice] = field(default_factory=dict)
    chosen_loads: Mapping[tuple[int, str], ChosenLoads] = field(default_factory=dict)
    """By segment and person, where somebody said another load than the plan."""
    acknowledged: frozenset[tuple[str, int, str]] = frozenset()
    """Flags that the coach has read: the person's id, the segment, the flag's text."""
    shared: Mapping[int, Sharing] = field(default_factory=dict)
    """How the people of a segment share equipment, where they do."""
    partners: Mapping[int, tuple[tuple[str, ...], ...]] = field(default_factory=dict)
    """Who shares a bar in a segment, by the people's ids."""
    teams: Mapping[int, Teams] = field(default_factory=dict)
    """Who shares a tally in a segment, where it isn't as the plan has it."""
    fits: Mapping[int, Fitted] = field(default_factory=dict)
    """By segment what was made shorter or left out, the newest last."""
    order: tuple[int, ...] = ()
    """The segments in the order in which they come, where some were added; none: as numbered."""
    chosen: RunKey = field(default_factory=lambda: RunKey(0))
    runs: Mapping[RunKey, Sheet] = field(default_factory=dict)
    attempts: Mapping[int, int] = field(default_factory=dict)
    """How often each segment was begun anew on purpose; missing is once."""
    closed: bool = False

    @property
    def segment(self) -> Segment:
        return self.plan.segment[self.chosen.segment]

    def planned(self, segment: int) -> Segment:
        """The segment with this number as the plan has it."""
        fitted = self.fits.get(segment)
        return self.plan.segment[segment] if fitted is None else fitted.planned

    def planned_length(self, segment: int, run: Sheet | None = None) -> int | None:
        """How long it was planned (ms), where it was fitted and is shorter, or was in a `run`."""
        planned = self.planned(segment)
        fitted = self.plan.segment[segment] if run is None else run.piece.segment
        if fitted is planned:
            return None
        lasts = length(fitted) if run is None else run.timeline.total  # with minutes got again
        return length(planned) if lasts < length(planned) else None

    def left_out(self, segment: int) -> bool:
        return segment in self.fits and self.fits[segment].fit.left_out

    @property
    def to_come(self) -> tuple[int, ...]:
        """The segment on the board, and those after it that aren't left out."""
        here, *after = self.in_order[self.place :]
        return (here, *(index for index in after if not self.left_out(index)))

    def beside(self, steps: int) -> int | None:
        """The segment so many after the one on the board, before it if negative; None: no such.

        Going on passes by those that are left out; going back reaches them. Once the class is
        closed all of them lie before.
        """
        if steps > 0:
            way = () if self.closed else self.to_come[1:]
        else:
            past = self.in_order if self.closed else self.in_order[: self.place]
            way = past[::-1]
        return way[abs(steps) - 1] if abs(steps) <= len(way) else None

    @property
    def in_order(self) -> tuple[int, ...]:
        """The numbers of all segments as they come."""
        return self.order or tuple(range(len(self.plan.segment)))

    @property
    def place(self) -> int:
        """How many come before the segment on the board."""
        return self.in_order.index(self.chosen.segment)

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

    @property
    def here(self) -> tuple[Person, ...]:
        """Whoever came and hasn't left."""
        return tuple(person for person in self.people if person.id not in self.left)

    def person(self, person_id: str) -> Person | None:
        """Who has this id, here or gone."""
        return next((person for person in self.people if person.id == person_id), None)

    def choice(self, person_id: str, segment: int) -> Choice:
        return self.choices.get((segment, person_id), Choice())

    def heats(self, key: RunKey) -> tuple[Sheet, ...]:
        """The sheets of all heats of one run of a segment, in order."""
        same = [run for run in self.runs if run[:2] == key[:2]]
        return tuple(self.runs[run] for run in sorted(same))

    @property
    def latest_piece(self) -> RunKey | None:
        """The run of a scored segment that was begun last, whatever its heat."""
        scored = [run for run in self.runs if is_piece(self.plan.segment[run.segment])]
        return scored[-1]._replace(heat=1) if scored else None

    def pieces(self) -> tuple[RunKey, ...]:
        """The runs of scored segments as these come, each once, whatever its heats."""
        firsts = {run._replace(heat=1) for run in self.runs}
        scored = (key for key in firsts if is_piece(self.plan.segment[key.segment]))
        return tuple(sorted(scored, key=lambda run: (self.in_order.index(run.segment), run)))

    def apply(self, number: int, event: ev.Event) -> "ClassRecord":
        """The record after one more event, the class's `number`th."""
        if isinstance(event, ev.ClassEvent):
            return _of_the_class(self, event)
        if isinstance(event, ev.RunEvent):
            return _of_a_run(self, event)
        if self.sheet is None:
            return self  # it speaks of a segment that was called off, or never begun
        return replace(self, runs={**self.runs, self.chosen: self.sheet.apply(number, event)})


# -- the fold: a rule for each event -------------------------------------------------


def _of_the_class(record: ClassRecord, event: ev.ClassEvent) -> ClassRecord:  # noqa: C901, PLR0912  one case an event
    match event:
        case ev.ClassOpened():
            return replace(
                record,
                plan_name=event.plan_name,
                people=event.people,
                ends=event.ends,
                stop=event.stop,
                asks_effort=event.ask_effort,
            )
        case ev.PersonAdded(person=person):
            return _taken_in(record, person)
        case ev.PersonChanged(person=changed):
            people = tuple(changed if one.id == changed.id else one for one in record.people)
            runs = {key: sheet.called(changed) for key, sheet in record.runs.items()}
            return replace(record, people=people, runs=runs)
        case ev.PersonLeft(person_id=gone):
            left = {**record.left, gone: record.latest_piece}
            return replace(record, left=left, left_at={**record.left_at, gone: event.at})
        case ev.PersonBack(person_id=back):
            return _back(record, back)
        case ev.OptionChosen():
            choice = Choice(event.options, event.load, event.start_station, event.portion)
            choices = {**record.choices, (event.segment, event.person_id): choice}
            return replace(record, choices=choices)
        case ev.LoadChosen():
            key = (event.segment, event.person_id)
            chosen = choose(record.chosen_loads.get(key, {}), event.set_number, event.load)
            return replace(record, chosen_loads={**record.chosen_loads, key: chosen})
        case ev.EquipmentShared(segment=segment, sharing=sharing):
            return replace(record, shared=_but_for(record.shared, segment, sharing))
        case ev.PartnersSet(segment=segment, groups=groups):
            return replace(record, partners=_but_for(record.partners, segment, groups))
        case ev.TeamsSet(segment=segment, groups=groups, how=how):
            teams = Teams(groups, how) if groups else None
            return replace(record, teams=_but_for(record.teams, segment, teams))
        case ev.SegmentFitted(segment=index, fit=fit):
            return _fitted(record, index, fit)
        case ev.FlagAcknowledged():
            flag = (event.person_id, event.segment, event.text)
            return replace(record, acknowledged=record.acknowledged | {flag})
        case ev.EndMoved(ends=ends):
            return replace(record, ends=ends)
        case ev.EmergencyNoted() | ev.Noted():
            return record  # a line for the journal: it changes nothing of the class
        case ev.EffortSaid(person_id=said_by, effort=effort):
            others = _without(record.efforts, said_by)
            efforts = others if effort is None else {**others, said_by: effort}
            return replace(record, efforts=efforts)
        case ev.EffortSkipped():
            return replace(record, asks_effort=False)
        case ev.ClassClosed():
            return replace(record, closed=True)
        case _:
            assert_never(event)


def _but_for(known: Mapping[int, Told], segment: int, told: Told | None) -> dict[int, Told]:
    """What is known of all segments, with this of one; without that one where it says nothing."""
    others = {index: one for index, one in known.items() if index != segment}
    return {**others, segment: told} if told else others


def _fitted(record: ClassRecord, index: int, fit: Fit | None) -> ClassRecord:
    planned = record.planned(index)
    segments = list(record.plan.segment)
    segments[index] = planned if fit is None else planned.fitted(fit)
    fits = {number: fitted for number, fitted in record.fits.items() if number != index}
    if fit is not None:
        fits[index] = Fitted(fit, planned)
    plan = record.plan.model_copy(update={"segment": tuple(segments)})
    return replace(record, plan=plan, fits=fits)


def _taken_in(record: ClassRecord, person: Person) -> ClassRecord:
    """Older journals take somebody out and in again; they come last then, as they did."""
    others = tuple(one for one in record.people if one.id != person.id)
    return _back(replace(record, people=(*others, person)), person.id)


def _back(record: ClassRecord, person_id: str) -> ClassRecord:
    return replace(
        record,
        left=_without(record.left, person_id),
        left_at=_without(record.left_at, person_id),
    )


def _without(told: Mapping[str, Told], person_id: str) -> dict[str, Told]:
    return {ident: one for ident, one in told.items() if ident != person_id}


def _with_segment(record: ClassRecord, event: ev.SegmentAdded) -> ClassRecord:
    """With one more. A record in whose plan it is already comes to the same."""
    number, before = event.segment, event.before
    if number > len(record.plan.segment):
        raise ValueError(f"segment {number} is added, and there is none before it")
    segments = (*record.plan.segment[:number], segment_of(event.plan_text, record.unit))
    order = tuple(one for one in record.in_order if one < number and one != event.instead)
    at = len(order) if before is None else order.index(before)
    return replace(
        record,
        plan=record.plan.model_copy(update={"segment": segments}),
        order=(*order[:at], number, *order[at:]),
        chosen=RunKey(number),
        closed=False,
    )


def _of_a_run(record: ClassRecord, event: ev.RunEvent) -> ClassRecord:
    match event:
        case ev.SegmentAdded():
            return _with_segment(record, event)
        case ev.SegmentChosen():
            attempt = record.attempts.get(event.segment, 1) + event.anew
            return replace(
                record,
                chosen=RunKey(event.segment, attempt, event.heat),
                attempts={**record.attempts, event.segment: attempt},
                closed=False,
            )
        case ev.SegmentStarted():
            key = record.chosen._replace(segment=event.segment, heat=event.heat)
            segment = record.plan.segment[event.segment]
            sheet = Sheet.begin(Piece.of(segment, record.unit), timeline(segment), event)
            return replace(record, chosen=key, runs={**record.runs, key: sheet})
        case ev.CalledOff() | ev.Restarted():
            runs = {key: sheet for key, sheet in record.runs.items() if key != record.chosen}
            return replace(record, runs=runs)
        case _:
            assert_never(event)
