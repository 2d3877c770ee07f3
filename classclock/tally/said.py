"""What just happened, in the words of the wall's last line."""

from typing import assert_never

from classclock.tally import events as ev
from classclock.tally.class_lineup import sharing_a_lane
from classclock.tally.counting.portion_words import portion_words
from classclock.tally.fitted_words import fitted_words
from classclock.tally.lane_tally import LaneTally
from classclock.tally.record import ClassRecord
from classclock.tally.scores.score_parts import score_text
from classclock.tally.sheet import Sheet
from classclock.tally.turns import turns
from classclock.units.times import show_time


def said(event: ev.Event, record: ClassRecord) -> str:
    """One line on an event, once `record` has it; empty where there is nothing to say."""
    if isinstance(event, ev.ClassEvent):
        return _of_the_class(event, record)
    if isinstance(event, ev.RunEvent):
        return _of_a_run(event)
    if isinstance(event, ev.ClockEvent):
        return _on_the_clock(event)
    return _on_the_count(event, record.sheet)


def _of_the_class(event: ev.ClassEvent, record: ClassRecord) -> str:  # noqa: C901, PLR0912  one case an event
    match event:
        case ev.SegmentFitted(segment=segment):
            return _fitted(segment, record)
        case ev.PersonLeft(person_id=gone):
            name, key = _called(gone, record)
            return f"{name} has left: no lane from here on. -{key}: back again"
        case ev.PersonBack(person_id=back):
            name, key = _called(back, record)
            return f"{name} is back, key {key}"
        case ev.OptionChosen(person_id=modifies, segment=index):
            return f"{_together(modifies, index, record)}: {_chosen(event, record)}"
        case ev.LoadChosen(person_id=lifts, segment=index):
            name = _together(lifts, index, record)
            which = "every set" if event.set_number is None else f"set {event.set_number}"
            return f"{name}, {which}: {event.load or 'as planned'}"
        case ev.EquipmentShared(sharing=None):
            return "all start together, as planned"
        case ev.EquipmentShared():
            return "shared as chosen"
        case ev.PartnersSet(groups=()):
            return "nobody shares a bar"
        case ev.PartnersSet():
            return "they share a bar turn by turn"
        case ev.TeamsSet(groups=()):
            return "teams as planned"
        case ev.TeamsSet(how=how):
            return f"teams {how}" if how else "teams as chosen"
        case ev.EffortSaid(person_id=who, effort=effort):
            name, _ = _called(who, record)
            done = "not kept any more" if effort is None else "✓"  # never the number
            return f"{name}, how hard it was: {done}"
        case (
            ev.ClassOpened()
            | ev.PersonAdded()
            | ev.PersonChanged()
            | ev.FlagAcknowledged()
            | ev.EndMoved()
            | ev.EmergencyNoted()
            | ev.Noted()
            | ev.ClassClosed()
            | ev.EffortSkipped()
        ):
            return ""  # the screen shows it by itself, or the room isn't to hear of it
        case _:
            assert_never(event)


def _fitted(segment: int, record: ClassRecord) -> str:
    name = record.plan.segment[segment].name
    if record.left_out(segment):
        here = segment == record.chosen.segment
        return f"{name} is left out: {'up goes back to it' if here else 'going on passes it by'}"
    return f"{name}: {fitted_words(record, segment) or 'as planned again'}"


def _called(person_id: str, record: ClassRecord) -> tuple[str, str]:
    """Name and key of somebody in this class, here or gone."""
    person = record.person(person_id)
    return ("nobody", "") if person is None else (person.name, person.key)


def _together(person_id: str, segment: int, record: ClassRecord) -> str:
    """Who has one lane with this person in a segment, by name."""
    ids = sharing_a_lane(record, person_id, segment)
    return " + ".join(_called(ident, record)[0] for ident in ids)


def _chosen(choice: ev.OptionChosen, record: ClassRecord) -> str:
    """The options by name, with the load by its name; or `as written`."""
    segment = record.plan.segment[choice.segment]
    named = [
        station.options[option - 1].name
        for station, option in zip(segment.station, choice.options, strict=False)
        if option
    ]
    if choice.portion:
        named.append(portion_words(segment, choice.options, choice.portion))
    return ", ".join([*(named or ["as written"]), *filter(None, [choice.load])])


def _of_a_run(event: ev.RunEvent) -> str:
    match event:
        case ev.CalledOff():
            return "count-in called off: enter starts it again"
        case ev.Restarted():
            return "false start: what was tapped doesn't count. Enter counts in again"
        case ev.SegmentAdded() | ev.SegmentChosen() | ev.SegmentStarted():
            return ""  # the whole screen changes
        case _:
            assert_never(event)


def _on_the_clock(event: ev.ClockEvent) -> str:
    match event:
        case ev.Held():
            return "held: space resumes, enter ends the segment here"
        case ev.Resumed():
            return "the clock runs again"
        case ev.HoldUndone():
            return "as if it had never been held"
        case ev.SegmentEnded():
            return "ended here. Backspace takes that back"
        case ev.TimeAdded(by=by):
            return f"{abs(by) // 60_000} minute {'more' if by > 0 else 'less'}"
        case ev.ClockShifted():
            return "the clock was set"
        case _:
            assert_never(event)


def _on_the_count(event: ev.CountEvent, sheet: Sheet | None) -> str:
    if isinstance(event, ev.LaneEvent):
        known = sheet is not None and event.lane in sheet.tallies
        return _entered(event, sheet, sheet.tallies[event.lane]) if sheet and known else ""
    match event:
        case ev.LaneJoined(lane=lane):
            return f"{lane.name} joined late, key {lane.key}"
        case ev.TookBack(entry=entry):
            return f"took back {_entry(entry, sheet)}. - backspace brings it back"
        case ev.BroughtBack(entry=entry):
            return f"brought back {_entry(entry, sheet)}"
        case ev.Moved(lane=to):
            return f"that was {sheet.tallies[to].lane.name if sheet is not None else ''}'s"
        case ev.Settled():
            return "settled"
        case _:
            assert_never(event)


def _entry(number: int, sheet: Sheet | None) -> str:
    """Whose entry this was, and what they have without it, or with it again."""
    lane = sheet.ledgers.lane_of(number) if sheet is not None else None
    if sheet is None or lane is None:
        return "the end of the segment"
    tally = sheet.tallies[lane]
    return f"{tally.lane.name}'s entry, {score_text(sheet.piece, tally, settled=False)}"


def _entered(event: ev.LaneEvent, sheet: Sheet, tally: LaneTally) -> str:
    piece, name = sheet.piece, tally.lane.name
    when = show_time(max(0, sheet.elapsed(event.at)))
    score = score_text(piece, tally, settled=False)
    match event:
        case ev.StoppedHere():
            return f"{name} stops here, {score}, {when}"
        case ev.OptionChanged(option=0):
            return f"{name}: as written from here, {when}"
        case ev.OptionChanged(station=station, option=option):
            return f"{name}: {piece.stations[station].options[option - 1].name} from here"
        case ev.Corrected():
            return f"{name} corrected to {score}"
        case ev.LetStand():
            return f"{name}: {score}, as it stands. Backspace asks again"
        case ev.Lifted(load=load, made=made):
            load = load or (tally.attempts[-1].load if tally.attempts else None)
            tried = f"{name} {'made' if made else 'missed'} {load or 'the load'}, {when}"
            return f"{tried}{_next_at_the_bar(sheet, event.lane)}"
        case ev.Tapped() | ev.Numbered() | ev.FinishedNow() if tally.finish is not None:
            return f"{name} finished, {show_time(-(-tally.finish // 1000) * 1000)}"
        case ev.Tapped() if piece.counts_by == "rounds" and piece.count != "station":
            return f"{name}, round {len(tally.rounds)}, {when}"
        case ev.Tapped() | ev.Numbered() | ev.FinishedNow():
            return f"{name}, {score}, {when}{_next_at_the_bar(sheet, event.lane)}"
        case _:
            assert_never(event)


def _next_at_the_bar(sheet: Sheet, lane: str) -> str:
    """Whose turn it is at the bar that this lane shares; empty where it shares none."""
    group = next((group for group in sheet.partners if lane in group), ())
    whose = next((turn.lane for turn in turns(sheet) if turn.lane in group), None)
    return "" if whose is None else f"; {sheet.tallies[whose].lane.name} is next"
