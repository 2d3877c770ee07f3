"""A piece with no screen and no waiting: its taps from a file, its results at once."""

from collections.abc import Callable
from datetime import datetime

from msgspec import Struct

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.desk import Desk
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.plan.care import STOP
from classclock.plan.model import Plan, is_piece
from classclock.strength.class_loads import ClassLoads
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.keys.strokes import Stroke
from classclock.tally.keys.taps_file import TapRow
from classclock.tally.lane_keys import people_named
from classclock.tally.lineup import MOST_LANES
from classclock.tally.load_flags import LoadFlag, load_flags, loads_to_choose
from classclock.tally.record import ClassRecord
from classclock.units.loads import Unit


class RefusedRow(Struct, frozen=True):
    """A row of the taps file of which something was not counted, and why."""

    line: int
    keys: str
    why: str


class Rehearsed(Struct, frozen=True):
    record: ClassRecord
    refused: tuple[RefusedRow, ...]
    flags: tuple[LoadFlag, ...]
    """What the coach would be told of the loads before the start."""
    started: datetime


def piece_called(plan: Plan, name: str | None) -> int:
    """The number of the segment to rehearse: the named one, else the first that is scored.

    Raises:
        LookupError: there is none; `str` says which there are.
    """
    pieces = [index for index, segment in enumerate(plan.segment) if is_piece(segment)]
    for index in pieces:
        if name is None or plan.segment[index].name.casefold() == name.casefold():
            return index
    names = ", ".join(f'"{plan.segment[index].name}"' for index in pieces)
    if name is None:
        raise LookupError("this plan has no piece: give a segment a score")
    raise LookupError(f'no piece is called "{name}": there is {names or "none"}')


def rehearse(
    plan: Plan,
    names: tuple[str, ...],
    taps: tuple[TapRow, ...],
    *,
    segment: int,
    unit: Unit,
    stop: str = STOP,
    read_loads: Callable[[Plan], ClassLoads] | None = None,
) -> Rehearsed:
    """Run one piece: real seconds since go, held time included, then settled by itself.

    `stop` is the club's rule of when to stop; `read_loads` works out who lifts what from what each
    has lifted before.

    Raises:
        ValueError: there are more lanes than one heat holds.
    """
    source = WoundSource()
    started = source.wall()
    people = people_named(names)
    live = LiveClass(
        ClassClock(source, source.now()),
        ClassRecord(plan, unit),
        EventList(),
        read_loads=read_loads,
    )
    live.record_event(ev.ClassOpened(0, "", "", unit, people, None, stop=stop))
    if segment:
        live.record_event(ev.SegmentChosen(0, segment))
    if any(lane.heat > 1 for lane in live.lineup()):
        raise ValueError(f"a rehearsal plays one heat: at most {MOST_LANES} lanes")
    live.plan_loads()
    to_read = (live.record, live.loads, (segment,))
    flags = (*load_flags(*to_read), *loads_to_choose(*to_read))
    live.do(cmd.Start())
    go = live.clock.now() + plan.segment[segment].count_in
    refused = _play(Desk(live), source, go, taps)
    _to_the_end(live, source)
    live.record_event(ev.Settled(live.clock.now(), segment, 1))
    return Rehearsed(live.record, refused, flags, started)


def _play(
    desk: Desk, source: WoundSource, go: int, taps: tuple[TapRow, ...]
) -> tuple[RefusedRow, ...]:
    refused: list[RefusedRow] = []
    for row in taps:
        source.jump(max(0, go + row.at - desk.live.clock.now()) * MS)
        at = desk.live.clock.now()
        desk.lapse(at)
        for sign in row.signs:
            answer = desk.stroke(Stroke(sign, at, at))
            why = answer.notice
            if answer.outcome is not None and answer.outcome.refused:
                why = answer.outcome.text
            if why and (answer.outcome is None or answer.outcome.refused):
                refused.append(RefusedRow(row.line, "".join(row.signs), why))
    return tuple(refused)


def _to_the_end(live: LiveClass, source: WoundSource) -> None:
    """Wind on until the piece is over; one that is held at its last row ends there."""
    sheet = live.record.sheet
    if live.phase == "held":
        live.do(cmd.EndSegment())
    elif sheet is not None and live.phase in ("running", "count-in"):
        left = sheet.timeline.total - sheet.clock.elapsed(live.clock.now())
        source.jump(max(0, left) * MS)
