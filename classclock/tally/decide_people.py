"""Who comes, goes and is back, answered: events, or a refusal."""

from collections.abc import Sequence
from string import ascii_lowercase
from typing import TYPE_CHECKING

from msgspec import UNSET, Struct
from msgspec.structs import replace

from classclock.plan.model import is_piece
from classclock.tally import events as ev
from classclock.tally.class_lineup import with_loads
from classclock.tally.lane_keys import free_key
from classclock.tally.lanes import Lane, Mark, Person
from classclock.tally.lineup import MOST_LANES
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal
from classclock.tally.visitors import named, numbered
from classclock.units.names import is_unnamed, name_key

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads


_NOBODY = Refusal("nobody in this class is meant by that: ctrl+p shows who is here")


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
    return _into_the_piece(record, ev.PersonAdded(at, person), person, loads)


def decide_back(
    record: ClassRecord, person_id: str, at: int, loads: "ClassLoads | None" = None
) -> Joining | Refusal:
    """Who had left is here again, with the key that was theirs; late while a piece runs."""
    person = record.person(person_id)
    if person is None:
        return _NOBODY
    if person.id not in record.left:
        return Refusal(f"{person.name} is here: nobody has said that they left")
    return _into_the_piece(record, ev.PersonBack(at, person.id), person, loads)


def _into_the_piece(
    record: ClassRecord,
    came: ev.PersonAdded | ev.PersonBack,
    person: Person,
    loads: "ClassLoads | None",
) -> Joining:
    """Who has come has a lane in the piece that runs, if one does and has room."""
    at, sheet = came.at, record.sheet
    running = record.phase(at) in ("running", "held")
    if sheet is None or not running or not is_piece(record.segment):
        return Joining((came,))
    if any(person.id in lane.members for lane in sheet.lanes):
        return Joining((came,))  # the piece was over when they left, and was taken up again
    if len(sheet.lanes) >= MOST_LANES:
        text = f"all {MOST_LANES} keys are taken: {person.name} comes in the next heat"
        return Joining((came,), text)
    key = free_key(person, {lane.key for lane in sheet.lanes})
    choice = record.choice(person.id, record.chosen.segment)
    lane = Lane(
        person.id,
        person.name,
        key,
        (person.id,),
        options=choice.options,
        load=choice.load,
        portion=choice.portion,
        heat=sheet.heat,
        late=True,
    )
    (lane,) = with_loads(record, (lane,), loads)
    return Joining((came, ev.LaneJoined(at, lane)))


def has_left(record: ClassRecord, person_id: str) -> Refusal | None:
    """Why nothing can be chosen for this person, who is gone or nobody; None for who is here."""
    person = record.person(person_id)
    if person is None:
        return _NOBODY
    if person.id in record.left:
        return Refusal(f"{person.name} has left. -{person.key}: back again")
    return None


def decide_leaving(record: ClassRecord, person_id: str, at: int) -> ev.PersonLeft | Refusal:
    """Gone for the rest of the class: what they did stands, and no later piece has their lane."""
    person = record.person(person_id)
    if person is None:
        return _NOBODY
    if person.id in record.left:
        return Refusal(f"{person.name} has left already. -{person.key}: back again")
    sheet = record.sheet
    if sheet is not None and sheet.ended(at) is None:
        lane = next((one for one in sheet.lanes if person.id in one.members), None)
        if lane is not None and record.phase(at) == "count-in":
            return Refusal("the count-in runs: space calls it off, then they can leave")
        if lane is not None:
            stops = f".{lane.key} stops {lane.name}"
            return Refusal(f"the piece runs: {stops} in it, and who leaves is said after it")
    return ev.PersonLeft(at, person.id)


def decide_effort(
    record: ClassRecord, person_id: str, effort: int, at: int
) -> ev.EffortSaid | Refusal:
    """How hard the hour was, once it is over; of who left too, for as long as they were there."""
    person = record.person(person_id)
    if person is None:
        return _NOBODY
    if person.visitor:
        return Refusal(f"{person.name} isn't in the book: +, then {person.name} = their name")
    return ev.EffortSaid(at, person.id, effort)


def decide_change(record: ClassRecord, changed: Person, at: int) -> ev.PersonChanged | Refusal:
    """Another name, key or mark for someone of this id; nobody has another's, here or gone."""
    before = record.person(changed.id)
    if before is None:
        return _NOBODY
    if not changed.name.strip():
        return Refusal("a name is missing: type one")
    if len(changed.key) != 1 or changed.key not in ascii_lowercase:
        return Refusal("a key is a letter a to z: type one")
    others = [one for one in record.people if one.id != changed.id]
    had = next((one for one in others if one.key == changed.key), None)
    if had is not None and changed.key != before.key:
        return Refusal(f"{changed.key} is {had.name}'s key: type one that is free")
    if any(name_key(one.name) == name_key(changed.name) for one in others):
        return Refusal(f"there is a {changed.name} already: add an initial")
    if before.visitor and not is_unnamed(changed.name):
        changed = replace(changed, visitor=UNSET)  # who has a name is none
    return ev.PersonChanged(at, changed)


def decide_naming(
    record: ClassRecord, person_id: str, name: str, at: int, marks: Sequence[Mark] | None = None
) -> ev.PersonChanged | Refusal:
    """A visitor gets a name, and with it a place in the book; `marks` as in `visitors.named`."""
    person = record.person(person_id)
    if person is None:
        return _NOBODY
    known = named(person, name, record.people, marks)
    return known if isinstance(known, Refusal) else ev.PersonChanged(at, known)
