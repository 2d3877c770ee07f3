"""What just happened, in the words of the wall's last line."""

from collections.abc import Callable, Mapping
from typing import Any

from classclock.tally import events as ev
from classclock.tally.record import ClassRecord
from classclock.tally.scores.score_parts import score_text
from classclock.tally.sheet import Sheet
from classclock.units.times import show_time


def said(event: ev.Event, record: ClassRecord) -> str:
    """One line on an event, once `record` has it; empty where there is nothing to say."""
    sheet = record.sheet
    if isinstance(event, ev.LaneEvent):
        return _entry(event, sheet) if sheet is not None and event.lane in sheet.tallies else ""
    sentence = SENTENCES.get(type(event))
    return sentence(event, sheet) if sentence is not None else ""


def _entry(event: ev.LaneEvent, sheet: Sheet | None) -> str:
    if sheet is None:
        return ""
    tally = sheet.tallies[event.lane]
    name = tally.lane.name
    when = show_time(max(0, sheet.elapsed(event.at)))
    match event:
        case ev.StoppedHere():
            return f"{name} stops here, {score_text(sheet.piece, tally, settled=False)}, {when}"
        case ev.OptionChanged(option=0):
            return f"{name}: as written from here, {when}"
        case ev.OptionChanged(station=station, option=option):
            return f"{name}: {sheet.piece.stations[station].options[option - 1].name} from here"
        case ev.Corrected():
            return f"{name} corrected to {score_text(sheet.piece, tally, settled=False)}"
        case ev.Lifted(load=load, made=made):
            load = load or (tally.attempts[-1].load if tally.attempts else None)
            return f"{name} {'made' if made else 'missed'} {load or 'the load'}, {when}"
    if tally.finish is not None:
        return f"{name} finished, {show_time(-(-tally.finish // 1000) * 1000)}"
    if isinstance(event, ev.Tapped) and sheet.piece.counts_by == "rounds":
        if sheet.piece.count == "station":
            return f"{name}, {score_text(sheet.piece, tally, settled=False)}, {when}"
        return f"{name}, round {len(tally.rounds)}, {when}"
    return f"{name}, {score_text(sheet.piece, tally, settled=False)}, {when}"


def _about_entry(words: str) -> Callable[[Any, Sheet | None], str]:
    def sentence(event: ev.TookBack | ev.BroughtBack, sheet: Sheet | None) -> str:
        lane = sheet.ledgers.lane_of(event.entry) if sheet is not None else None
        if sheet is None or lane is None:
            return words.format(entry="the end of the segment")
        tally = sheet.tallies[lane]
        return words.format(
            entry=f"{tally.lane.name}'s entry, {score_text(sheet.piece, tally, settled=False)}"
        )

    return sentence


def _moved(event: ev.Moved, sheet: Sheet | None) -> str:
    name = sheet.tallies[event.lane].lane.name if sheet is not None else ""
    return f"that was {name}'s"


def _fixed(words: str) -> Callable[[Any, Sheet | None], str]:
    return lambda _event, _sheet: words


def _joined(event: ev.LaneJoined, _: Sheet | None) -> str:
    return f"{event.lane.name} joined late, key {event.lane.key}"


def _time_added(event: ev.TimeAdded, _: Sheet | None) -> str:
    return f"{abs(event.by) // 60_000} minute {'more' if event.by > 0 else 'less'}"


def _shared(event: ev.EquipmentShared, _: Sheet | None) -> str:
    shared = "shared as chosen"
    return shared if event.sharing is not None else "all start together, as planned"


SENTENCES: Mapping[type[ev.Event], Callable[[Any, Sheet | None], str]] = {
    ev.EquipmentShared: _shared,
    ev.CalledOff: _fixed("count-in called off: enter starts it again"),
    ev.Held: _fixed("held: space resumes, enter ends the segment here"),
    ev.Resumed: _fixed("the clock runs again"),
    ev.HoldUndone: _fixed("as if it had never been held"),
    ev.Restarted: _fixed("false start: what was tapped doesn't count. Enter counts in again"),
    ev.SegmentEnded: _fixed("ended here. Backspace takes that back"),
    ev.TimeAdded: _time_added,
    ev.ClockShifted: _fixed("the clock was set"),
    ev.LaneJoined: _joined,
    ev.TookBack: _about_entry("took back {entry}. - backspace brings it back"),
    ev.BroughtBack: _about_entry("brought back {entry}"),
    ev.Moved: _moved,
    ev.Settled: _fixed("settled and saved"),
}
