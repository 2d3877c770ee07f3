"""One entry, as it was typed, in words."""

from typing import assert_never

from msgspec import Struct

from classclock.tally import events as ev
from classclock.tally.sheet import Sheet
from classclock.units.times import show_time


class EntryTold(Struct, frozen=True):
    name: str
    """Whose it is; nobody's: empty."""
    words: str
    when: str
    """On the piece's clock; empty of the end."""


def entry_told(sheet: Sheet, number: int) -> EntryTold:
    """Whose it is, what it says, and when it came."""
    lane = sheet.ledgers.lane_of(number)
    if lane is None:
        return EntryTold("", "the end of the segment", "")
    event = next(one.event for one in sheet.ledgers.lanes[lane] if one.number == number)
    when = show_time(max(0, sheet.elapsed(event.at)))
    return EntryTold(sheet.tallies[lane].lane.name, _said(event), when)


def entry_words(sheet: Sheet, number: int) -> str:
    """The same in a line: `Noor, a tap at 12:31`."""
    told = entry_told(sheet, number)
    return f"{told.name}, {told.words} at {told.when}" if told.name else told.words


def _said(event: ev.LaneEvent) -> str:  # noqa: C901  one case an event
    match event:
        case ev.Tapped():
            return "a tap"
        case ev.Numbered(rounds=None, reps=reps, interval=None):
            return str(reps)
        case ev.Numbered(rounds=None, reps=reps, interval=interval):
            return f"{interval}:{reps}"
        case ev.Numbered(rounds=rounds, reps=reps):
            return f"{rounds}+{'' if reps is None else reps}"
        case ev.Lifted(load=load, made=made):
            return f"{load or 'the planned load'} {'made' if made else 'missed'}"
        case ev.FinishedNow():
            return "the finish"
        case ev.StoppedHere():
            return "a stop"
        case ev.OptionChanged():
            return "an option"
        case ev.Corrected():
            return "a correction"
        case ev.LetStand():
            return "an answer"
        case _:
            assert_never(event)
