"""Who comes in, answered: events."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from classclock.plan.model import is_piece
from classclock.tally import events as ev
from classclock.tally.lane_keys import free_key
from classclock.tally.lanes import Lane, Mark, Person
from classclock.tally.lineup import MOST_LANES, give_loads
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal
from classclock.tally.visitors import named, numbered

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
    newcomer = numbered(newcomer, record.people)
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


def decide_naming(
    record: ClassRecord, person_id: str, name: str, at: int, marks: Sequence[Mark] | None = None
) -> ev.PersonChanged | Refusal:
    """A visitor gets a name, and with it a place in the book; `marks` as in `visitors.named`."""
    person = next((one for one in record.people if one.id == person_id), None)
    if person is None:
        return Refusal("nobody in this class is meant by that: + adds somebody")
    known = named(person, name, record.people, marks)
    return known if isinstance(known, Refusal) else ev.PersonChanged(at, known)
