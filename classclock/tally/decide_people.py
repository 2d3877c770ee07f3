"""Who comes in, answered: events."""

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from classclock.plan.model import is_piece
from classclock.tally import events as ev
from classclock.tally.lane_keys import free_key
from classclock.tally.lanes import Lane, Person
from classclock.tally.lineup import MOST_LANES, give_loads
from classclock.tally.record import ClassRecord

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads


class Joining(Struct, frozen=True):
    """How somebody comes in. `text` is said in place of what their events say, if there is any."""

    events: tuple[ev.Event, ...]
    text: str = ""


def decide_joining(
    record: ClassRecord, newcomer: Person, at: int, loads: "ClassLoads | None" = None
) -> Joining:
    """Take someone in, with their own key where it is free; late while a piece runs.

    Where the heat that runs has no letter left they wait: another heat is drawn with them.
    `loads` is what everybody is to lift, where that was read.
    """
    person = replace(newcomer, key=free_key(newcomer, {one.key for one in record.people}))
    added = ev.PersonAdded(at, person)
    sheet = record.sheet
    running = record.phase(at) in ("running", "held")
    if sheet is None or not running or not is_piece(record.segment):
        return Joining((added,))
    if len(sheet.lanes) >= MOST_LANES:
        text = f"all {MOST_LANES} keys are taken: {person.name} comes in the next heat"
        return Joining((added,), text)
    key = free_key(person, {lane.key for lane in sheet.lanes})
    lane = Lane(person.id, person.name, key, (person.id,), heat=sheet.heat, late=True)
    if loads is not None:
        (lane,) = give_loads((lane,), record.chosen.segment, loads)
    return Joining((added, ev.LaneJoined(at, lane)))
