"""One class as it runs: commands in, events out.

Every event is written to the journal before anything shows it, and the record is what the events
fold to; the screens, a rehearsal and a rejoined class all come through here.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Protocol

from msgspec import Struct
from msgspec.structs import replace

from classclock.clock.class_clock import ClassClock
from classclock.plan.model import Countdown, is_piece
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.decide import Refusal, decide
from classclock.tally.lane_keys import propose_key
from classclock.tally.lanes import Choice, Lane, Person, Sharing
from classclock.tally.lineup import MOST_LANES, draw_lanes, give_loads
from classclock.tally.record import ClassRecord, Phase, RunKey
from classclock.tally.said import said
from classclock.tally.scores.scores import ODD_REPS, unsettled
from classclock.units.times import show_time

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads


class Recorder(Protocol):
    """Where events go before they count: a journal on disk, or a list in a rehearsal."""

    def append(self, event: ev.Event) -> int:
        """Take one event; its number in the class, from zero."""
        ...


class Outcome(Struct, frozen=True):
    """What a command came to. `text` is for the coach; refused means nothing was recorded."""

    text: str = ""
    refused: bool = False
    events: tuple[ev.Event, ...] = ()


class LiveClass:
    """The shell round the pure record: it knows the time and the recorder, nothing else."""

    def __init__(
        self,
        clock: ClassClock,
        record: ClassRecord,
        recorder: Recorder,
        *,
        read_loads: "Callable[[], ClassLoads] | None" = None,
    ) -> None:
        """`read_loads` works out who lifts what, from files: it may take a moment."""
        self.clock = clock
        self.record = record
        self.loads: ClassLoads | None = None
        """What everybody is to lift, once `plan_loads` has read it."""
        self._recorder = recorder
        self._read_loads = read_loads
        self._asked: tuple[str, ...] | None = None
        """Who was named as unsettled when the coach last asked to go on."""
        self._clock_commands: Mapping[type, Callable[[Any, int], Outcome]] = {
            cmd.Start: self._start,
            cmd.CallOff: self._call_off,
            cmd.HoldClock: self._hold,
            cmd.Resume: self._resume,
            cmd.UndoHold: self._undo_hold,
            cmd.EndSegment: self._end_segment,
            cmd.Restart: self._restart,
            cmd.AddTime: self._add_time,
            cmd.ShiftClock: self._shift,
            cmd.Next: self._next,
            cmd.GoTo: self._go_to,
        }

    # -- reading -------------------------------------------------------------------

    @property
    def phase(self) -> Phase:
        return self.record.phase(self.clock.now())

    def lineup(self) -> tuple[Lane, ...]:
        """The lanes of the segment on the board, all heats: as started, or as they would start."""
        sheet = self.record.sheet
        return tuple(sheet.lanes) if sheet is not None else self._all_heats()

    # -- doing -----------------------------------------------------------------------

    @property
    def loads_unread(self) -> bool:
        """Whether `plan_loads` would read files."""
        return self.loads is None and self._read_loads is not None

    def plan_loads(self) -> None:
        """Find out what everybody is to lift, unless that is known already."""
        if self.loads is None and self._read_loads is not None:
            self.loads = self._read_loads()

    def acknowledge(self, person_id: str, segment: int, text: str) -> Outcome:
        """The coach has read this flag on a person's loads."""
        return self._happened(ev.FlagAcknowledged(self.clock.now(), person_id, segment, text))

    def do(self, command: cmd.CountCommand | cmd.ClockCommand, at: int | None = None) -> Outcome:
        """Carry out a command given at a moment of the class's clock (now, unless told)."""
        at = self.clock.now() if at is None else at
        if not isinstance(command, cmd.Next):
            self._asked = None
        if isinstance(command, cmd.CountCommand):
            return self._count(command, at)
        return self._clock_commands[type(command)](command, at)

    def record_event(self, event: ev.Event) -> Outcome:
        """Write one event, fold it, and say it."""
        return self._happened(event)

    def choose(self, person_id: str, segment: int, choice: Choice) -> Outcome:
        """Before a segment starts: what this person modifies in it."""
        event = ev.OptionChosen(
            self.clock.now(),
            person_id,
            segment,
            choice.options,
            choice.load,
            choice.start_station,
        )
        return self._happened(event)

    def share(self, segment: int, sharing: Sharing | None) -> Outcome:
        """Before a segment starts: how its people share what is short; None: as planned."""
        if self.record.heats(RunKey(segment, self.record.attempts.get(segment, 1))):
            return _refuse("this piece has been started: it goes on as it began")
        return self._happened(ev.EquipmentShared(self.clock.now(), segment, sharing))

    def add_person(self, newcomer: Person) -> Outcome:
        """Take someone in, with their own key where it is free; late while a piece runs.

        Where the heat that runs has no letter left they wait: another heat is drawn with them.
        """
        now = self.clock.now()
        sheet = self.record.sheet
        running = sheet is not None and self.record.phase(now) in ("running", "held")
        key = _free_key(newcomer, {person.key for person in self.record.people})
        person = replace(newcomer, key=key)
        added = ev.PersonAdded(now, person)
        events: list[ev.Event] = [added]
        if running and sheet is not None and is_piece(self.record.segment):
            if len(sheet.lanes) >= MOST_LANES:
                text = f"all {MOST_LANES} keys are taken: {person.name} comes in the next heat"
                return replace(self._happened(added), text=text)
            lane_key = _free_key(person, {lane.key for lane in sheet.lanes})
            lane = Lane(person.id, person.name, lane_key, (person.id,), heat=sheet.heat, late=True)
            if self.loads is not None:
                (lane,) = give_loads((lane,), self.record.chosen.segment, self.loads)
            events.append(ev.LaneJoined(now, lane))
        return self._happened(*events)

    # -- inside ----------------------------------------------------------------------

    def _happened(self, *events: ev.Event) -> Outcome:
        text = ""
        for event in events:
            number = self._recorder.append(event)
            self.record = self.record.apply(number, event)
            text = said(event, self.record) or text
        return Outcome(text, events=events)

    def _count(self, command: cmd.CountCommand, at: int) -> Outcome:
        record = self.record
        if record.sheet is None:
            return _refuse("nothing is running: enter starts the count-in")
        decision = decide(record.sheet, command, at)
        if isinstance(decision, Refusal):
            return _refuse(decision.text)
        return self._happened(decision)

    def _start(self, _: cmd.Start, at: int) -> Outcome:
        record = self.record
        if record.phase(at) != "board":
            return _refuse("this segment has started already")
        if record.segment.lift is not None:
            self.plan_loads()
        lanes = self.lineup() if is_piece(record.segment) else ()
        lanes = tuple(lane for lane in lanes if lane.heat == record.chosen.heat)
        go = at + record.segment.count_in
        chosen = record.chosen
        return self._happened(ev.SegmentStarted(at, chosen.segment, chosen.heat, go, lanes))

    def _call_off(self, _: cmd.CallOff, at: int) -> Outcome:
        if self.record.phase(at) != "count-in":
            return _refuse("the clock runs: space holds it")
        return self._happened(ev.CalledOff(at))

    def _hold(self, _: cmd.HoldClock, at: int) -> Outcome:
        if self.record.phase(at) != "running":
            return _refuse("no clock is running")
        return self._happened(ev.Held(at))

    def _while_held(self, event: ev.Event) -> Outcome:
        if self.record.phase(event.at) != "held":
            return _refuse("hold the clock first: space")
        return self._happened(event)

    def _resume(self, _: cmd.Resume, at: int) -> Outcome:
        return self._while_held(ev.Resumed(at))

    def _undo_hold(self, _: cmd.UndoHold, at: int) -> Outcome:
        return self._while_held(ev.HoldUndone(at))

    def _end_segment(self, _: cmd.EndSegment, at: int) -> Outcome:
        sheet = self.record.sheet
        if sheet is not None and sheet.all_in(at) is not None and sheet.ended(at) is None:
            return self._happened(ev.SegmentEnded(at))
        return self._while_held(ev.SegmentEnded(at))

    def _restart(self, _: cmd.Restart, at: int) -> Outcome:
        return self._while_held(ev.Restarted(at))

    def _add_time(self, command: cmd.AddTime, at: int) -> Outcome:
        sheet = self.record.sheet
        if sheet is None or self.record.phase(at) not in ("running", "held"):
            return _refuse("no clock is running")
        if not isinstance(self.record.segment, Countdown):
            return _refuse("only a countdown can be made longer or shorter")
        left = sheet.timeline.total - sheet.clock.elapsed(at)
        by = command.minutes * 60_000
        if left + by <= 0:
            return _refuse(f"only {show_time(left + 999)} is left: space, then enter, ends it")
        return self._happened(ev.TimeAdded(at, by))

    def _shift(self, command: cmd.ShiftClock, at: int) -> Outcome:
        if self.record.phase(at) not in ("running", "held"):
            return _refuse("no clock is running")
        return self._happened(ev.ClockShifted(at, command.ms))

    def _next(self, _: cmd.Next, at: int) -> Outcome:
        record = self.record
        sheet, chosen = record.sheet, record.chosen
        if record.closed:
            return _refuse("the class is over: ctrl+q leaves, up goes back to its last segment")
        if sheet is None or record.phase(at) != "over":
            return _refuse("the clock runs: space holds it")
        events: list[ev.Event] = []
        scored = is_piece(record.segment)
        if scored and not sheet.settled:
            asked = unsettled(sheet)
            names = tuple(sheet.tallies[lane].lane.name for lane, _ in asked)
            if names and names != self._asked:
                self._asked = names
                return _refuse(_unsettled(names, {words for _, words in asked}))
            events.append(ev.Settled(at, chosen.segment, chosen.heat))
        self._asked = None
        heats = max((lane.heat for lane in self._all_heats()), default=1) if scored else 1
        if chosen.heat < heats:
            events.append(ev.SegmentChosen(at, chosen.segment, chosen.heat + 1))
        elif chosen.segment + 1 < len(record.plan.segment):
            events.append(ev.SegmentChosen(at, chosen.segment + 1))
        else:
            events.append(ev.ClassClosed(at))
        return self._happened(*events)

    def _all_heats(self) -> tuple[Lane, ...]:
        record = self.record
        index = record.chosen.segment
        choices = {person.id: record.choice(person.id, index) for person in record.people}
        shared = record.shared.get(index)
        places = shared.places if shared is not None else ()
        lanes = draw_lanes(record.segment, record.people, choices, places)
        # Whoever came late to a heat has been in it, and isn't drawn for another.
        been = {
            ident: sheet.heat
            for sheet in record.heats(record.chosen)
            for lane in sheet.lanes
            for ident in lane.members
        }
        lanes = tuple(lane for lane in lanes if been.get(lane.members[0], lane.heat) == lane.heat)
        return give_loads(lanes, index, self.loads) if self.loads is not None else lanes

    def _go_to(self, command: cmd.GoTo, at: int) -> Outcome:
        record = self.record
        if record.phase(at) not in ("board", "over", "closed"):
            return _refuse("the clock runs: space holds it, then enter ends the segment")
        if command.steps == 0:
            return self._happened(
                ev.SegmentChosen(at, record.chosen.segment, record.chosen.heat, anew=True)
            )
        last = len(record.plan.segment) - 1
        here = record.chosen.segment + (1 if record.closed else 0)
        target = here + command.steps
        if target < 0:
            return _refuse("this is the first segment")
        if target > last:
            return _refuse("this is the last segment")
        return self._happened(ev.SegmentChosen(at, target))


def _free_key(person: Person, taken: Collection[str]) -> str:
    if person.key and person.key not in taken:
        return person.key
    return propose_key(person.name, taken)


def _refuse(text: str) -> Outcome:
    return Outcome(text, refused=True)


def _unsettled(names: Sequence[str], wanted: Collection[str]) -> str:
    who = ", ".join(names[:4]) + (f" and {len(names) - 4} more" if len(names) > 4 else "")
    if set(wanted) == {ODD_REPS}:
        return f"not settled yet: {who}. Type their odd reps, or enter again to count none"
    return f"not settled yet: {who}. Look at what is asked, or enter again to let it stand"
