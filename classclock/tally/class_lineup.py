"""Who stands in which lane of the segment on the board: as it started, or as it would start."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from msgspec.structs import replace

from classclock.strength.chosen_loads import as_chosen
from classclock.tally.lanes import Lane, Place
from classclock.tally.lineup import (
    MOST_LANES,
    Groups,
    draw_lanes,
    give_loads,
    partners_in,
    partners_together,
)
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord, RunKey

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads


def lineup(record: ClassRecord, loads: "ClassLoads | None") -> tuple[Lane, ...]:
    """The lanes as they were started, or as they would start now.

    `loads` is what everybody is to lift; None as long as nobody has read it.
    """
    sheet = record.sheet
    return sheet.lanes if sheet is not None else all_heats(record, loads)


def all_heats(record: ClassRecord, loads: "ClassLoads | None") -> tuple[Lane, ...]:
    """The lanes of all heats: of those that were started, and of the others as they would be now.

    Whoever has been in a heat of this run is drawn for no other, and who has left for none. Who
    comes when the last heat has begun waits for the next piece, unless there is no letter left.
    """
    index, begun = record.chosen.segment, record.heats(record.chosen)
    been = tuple(lane for sheet in begun for lane in sheet.lanes)
    choices = {person.id: record.choice(person.id, index) for person in record.people}
    shared = record.shared.get(index)
    places = shared.places if shared is not None else ()
    teams = record.teams.get(index)
    first = 1 + max((sheet.heat for sheet in begun), default=0)
    to_come = draw_lanes(
        record.segment,
        record.people,
        choices,
        places,
        teams.groups if teams is not None else (),
        gone=record.left,
        been={ident for lane in been for ident in lane.members},
        first_heat=first,
    )
    to_come = partners_together(to_come, record.partners.get(index, ()))
    if begun and first > _last_heat(record, (*been, *to_come), places):
        return been
    return (*been, *with_loads(record, to_come, loads))


def partners_now(record: ClassRecord, lanes: tuple[Lane, ...]) -> Groups:
    """Which of the lanes of the heat on the board share a bar, as started or as it would start."""
    if record.sheet is not None:
        return record.sheet.partners
    chosen = record.chosen
    return partners_in(lanes, chosen.heat, record.partners.get(chosen.segment, ()))


def sharing_a_lane(record: ClassRecord, person_id: str, segment: int) -> tuple[str, ...]:
    """The ids of all who would share this person's lane in a segment, their own among them."""
    run = RunKey(segment, record.attempts.get(segment, 1))
    on = record if record.chosen.segment == segment else replace(record, chosen=run)
    shared = (lane.members for lane in all_heats(on, None) if person_id in lane.members)
    return next(shared, (person_id,))


def _last_heat(record: ClassRecord, lanes: Sequence[Lane], places: Sequence[Place]) -> int:
    """Of a run that has begun; whoever left in the middle of it had a place in a heat."""
    drawn = {ident for lane in lanes for ident in lane.members}
    this = record.chosen[:2]
    left = {ident for ident, after in record.left.items() if after and after[:2] == this}
    due = len(lanes) + len(left - drawn)
    return max(-(-due // MOST_LANES), *(place.heat for place in places), 1)


def with_loads(
    record: ClassRecord, lanes: Sequence[Lane], loads: "ClassLoads | None"
) -> tuple[Lane, ...]:
    """Lanes of the segment on the board with what each is to lift: as chosen, else as planned."""
    index = record.chosen.segment
    if loads is not None:
        lanes = give_loads(lanes, index, loads)
    if not any(segment == index for segment, _ in record.chosen_loads):
        return tuple(lanes)
    piece = Piece.of(record.segment, record.unit)
    return tuple(_as_chosen(record, piece, lane) for lane in lanes)


def _as_chosen(record: ClassRecord, piece: Piece, lane: Lane) -> Lane:
    index = record.chosen.segment
    said = (record.chosen_loads.get((index, member), {}) for member in lane.members)
    chosen = next((loads for loads in said if loads), {})
    return replace(lane, loads=as_chosen(piece.planned_loads(lane), chosen)) if chosen else lane
