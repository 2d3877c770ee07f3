"""What the coach means with the clock and the segments, answered: events, or a refusal.

As `decide` for what is counted. Pure.
"""

from typing import TYPE_CHECKING, assert_never

from msgspec.structs import replace

from classclock.plan.model import Segment, is_piece
from classclock.plan.open_class import segment_text
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.class_lineup import all_heats, lineup, partners_now
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.refusal import Refusal
from classclock.tally.scores.questions import questions
from classclock.tally.sheet import Sheet
from classclock.units.times import show_time

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads

Decided = tuple[ev.Event, ...] | Refusal

_NOTHING_RUNS = Refusal("no clock is running")


def decide_clock(  # noqa: C901, PLR0912  one case a command
    record: ClassRecord,
    command: cmd.ClockCommand,
    at: int,
    *,
    loads: "ClassLoads | None" = None,
) -> Decided:
    """The events that this command comes to. `at` is when its key arrived, in ms of the class.

    `loads` is what everybody is to lift, where that was read.
    """
    match command:
        case cmd.Start():
            return _start(record, at, loads)
        case cmd.CallOff():
            if record.phase(at) != "count-in":
                return Refusal("the clock runs: space holds it")
            return (ev.CalledOff(at),)
        case cmd.HoldClock():
            return (ev.Held(at),) if record.phase(at) == "running" else _NOTHING_RUNS
        case cmd.Resume():
            return _while_held(record, ev.Resumed(at))
        case cmd.UndoHold():
            return _while_held(record, ev.HoldUndone(at))
        case cmd.EndSegment():
            all_in = record.sheet is not None and _waits_for_nobody(record.sheet, at)
            return (ev.SegmentEnded(at),) if all_in else _while_held(record, ev.SegmentEnded(at))
        case cmd.Restart():
            return _while_held(record, ev.Restarted(at))
        case cmd.AddTime(minutes=minutes):
            return _add_time(record, minutes * 60_000, at)
        case cmd.ShiftClock(ms=ms):
            runs = record.phase(at) in ("running", "held")
            return (ev.ClockShifted(at, ms),) if runs else _NOTHING_RUNS
        case cmd.Next(all_stands=all_stands):
            return _next(record, at, loads, all_stands=all_stands)
        case cmd.GoTo(steps=steps):
            return _go_to(record, steps, at)
        case _:
            assert_never(command)


def _start(record: ClassRecord, at: int, loads: "ClassLoads | None") -> Decided:
    if record.phase(at) != "board":
        return Refusal("this segment has started already")
    chosen, segment = record.chosen, record.segment
    lanes = lineup(record, loads) if is_piece(segment) else ()
    here = tuple(lane for lane in lanes if lane.heat == chosen.heat)
    if is_piece(segment) and not here:
        return Refusal("nobody is here for this piece: + adds somebody, down goes on without it")
    go = at + segment.count_in
    partners = partners_now(record, here)
    return (ev.SegmentStarted(at, chosen.segment, chosen.heat, go, here, partners),)


def _while_held(record: ClassRecord, event: ev.ClockEvent | ev.RunEvent) -> Decided:
    if record.phase(event.at) != "held":
        return Refusal("hold the clock first: space")
    return (event,)


def _waits_for_nobody(sheet: Sheet, at: int) -> bool:
    """Whether all are in, and the piece goes on all the same for a moment."""
    return sheet.all_in(at) is not None and sheet.ended(at) is None


def _add_time(record: ClassRecord, by: int, at: int) -> Decided:
    sheet = record.sheet
    if sheet is None or record.phase(at) not in ("running", "held"):
        return _NOTHING_RUNS
    if not record.segment.about.minutes_can_change:
        return Refusal("only a countdown can be made longer or shorter")
    left = sheet.timeline.total - sheet.clock.elapsed(at)
    if left + by <= 0:
        return Refusal(f"only {show_time(left + 999)} is left: space, then enter, ends it")
    return (ev.TimeAdded(at, by),)


def _next(record: ClassRecord, at: int, loads: "ClassLoads | None", *, all_stands: bool) -> Decided:
    sheet, chosen = record.sheet, record.chosen
    if record.closed and record.asks_effort:
        return (ev.EffortSkipped(at),)
    if record.closed:
        return Refusal("the class is over: ctrl+q leaves, up goes back to its last segment")
    if sheet is None or record.phase(at) != "over":
        return Refusal("the clock runs: space holds it")
    scored = is_piece(record.segment)
    settled: tuple[ev.Event, ...] = ()
    if scored and not sheet.settled:
        asked = () if all_stands else questions(sheet)
        if asked:
            first = asked[0]
            return (ev.LetStand(at, first.lane, first.doubt, first.intervals),)
        settled = (ev.Settled(at, chosen.segment, chosen.heat),)
    if later := [heat for heat in _heats(record, loads) if heat > chosen.heat]:
        return (*settled, ev.SegmentChosen(at, chosen.segment, min(later)))
    after = record.beside(1)
    if after is None:
        return (*settled, ev.ClassClosed(at))
    return (*settled, ev.SegmentChosen(at, after, _heat_to_run(record, after, loads)))


def _heats(record: ClassRecord, loads: "ClassLoads | None") -> set[int]:
    """The heats of the segment on the board that have lanes, those that ran too."""
    return {lane.heat for lane in all_heats(record, loads)} if is_piece(record.segment) else set()


def _heat_to_run(record: ClassRecord, segment: int, loads: "ClassLoads | None") -> int:
    """The first heat that hasn't run: of a piece before whose second one a clock was added."""
    chosen = RunKey(segment, record.attempts.get(segment, 1))
    if chosen not in record.runs:
        return 1
    heats = _heats(replace(record, chosen=chosen), loads)
    return min((n for n in heats if chosen._replace(heat=n) not in record.runs), default=1)


def _go_to(record: ClassRecord, steps: int, at: int) -> Decided:
    if record.phase(at) not in ("board", "over", "closed"):
        return Refusal("the clock runs: space holds it, then enter ends the segment")
    chosen = record.chosen
    if steps == 0:
        return (ev.SegmentChosen(at, chosen.segment, chosen.heat, anew=True),)
    target = record.beside(steps)
    if target is None:
        return Refusal(f"this is the {'first' if steps < 0 else 'last'} segment")
    return (ev.SegmentChosen(at, target),)


# -- a clock without a plan ------------------------------------------------------------


def decide_added(record: ClassRecord, segment: Segment, at: int) -> Decided:
    """The segment runs now, and the one on the board comes after it; once all is over it is last.

    One that was added, called off and never run gives its place to this one.
    """
    if why := why_no_clock(record, at):
        return Refusal(why)
    here = record.chosen.segment
    instead = here if _was_called_off(record) else None
    others = {record.plan.segment[one].name for one in record.in_order if one != instead}
    named = segment.model_copy(update={"name": _free_name(segment.name, others)})
    before = None if record.closed else here if instead is None else record.beside(1)
    number = len(record.plan.segment)
    added = ev.SegmentAdded(at, number, segment_text(named), before, instead)
    started = decide_clock(record.apply(-1, added), cmd.Start(), at)
    return started if isinstance(started, Refusal) else (added, *started)


def why_no_clock(record: ClassRecord, at: int) -> str:
    """Why no clock can be added now, in words; empty where one can."""
    match record.phase(at):
        case "board" | "closed":
            return ""
        case "over":
            return "this segment is over: enter goes on, then ctrl+g starts another clock"
        case "count-in":
            return "the count-in runs: space calls it off, then ctrl+g starts another clock"
        case _:
            return "the clock runs: space holds it, enter ends it, then ctrl+g starts another"


def _was_called_off(record: ClassRecord) -> bool:
    """Whether the segment on the board was added last, and has never run."""
    last = len(record.plan.segment) - 1
    added = bool(record.order) and record.chosen.segment == last
    return added and all(run.segment != last for run in record.runs)


def _free_name(wanted: str, taken: set[str]) -> str:
    """The name, or with a number behind it where another segment has it."""
    name, number = wanted, 1
    while name in taken:
        number += 1
        name = f"{wanted} ({number})"
    return name
