"""Who stands in which lane of the segment on the board: as it started, or as it would start."""

from typing import TYPE_CHECKING

from classclock.tally.lanes import Lane
from classclock.tally.lineup import (
    Groups,
    draw_lanes,
    give_loads,
    partners_in,
    partners_together,
)
from classclock.tally.record import ClassRecord

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads


def lineup(record: ClassRecord, loads: "ClassLoads | None") -> tuple[Lane, ...]:
    """The lanes as they were started, or as they would start now.

    `loads` is what everybody is to lift; None as long as nobody has read it.
    """
    sheet = record.sheet
    return sheet.lanes if sheet is not None else all_heats(record, loads)


def all_heats(record: ClassRecord, loads: "ClassLoads | None") -> tuple[Lane, ...]:
    """The lanes of all heats as they would be drawn now, one under way or not."""
    index = record.chosen.segment
    choices = {person.id: record.choice(person.id, index) for person in record.people}
    shared = record.shared.get(index)
    places = shared.places if shared is not None else ()
    teams = record.teams.get(index)
    lanes = draw_lanes(
        record.segment, record.people, choices, places, teams.groups if teams is not None else ()
    )
    lanes = partners_together(lanes, record.partners.get(index, ()))
    # Whoever came late to a heat has been in it, and isn't drawn for another.
    been = {
        ident: sheet.heat
        for sheet in record.heats(record.chosen)
        for lane in sheet.lanes
        for ident in lane.members
    }
    lanes = tuple(lane for lane in lanes if been.get(lane.members[0], lane.heat) == lane.heat)
    return give_loads(lanes, index, loads) if loads is not None else lanes


def partners_now(record: ClassRecord, lanes: tuple[Lane, ...]) -> Groups:
    """Which of the lanes of the heat on the board share a bar, as started or as it would start."""
    if record.sheet is not None:
        return record.sheet.partners
    chosen = record.chosen
    return partners_in(lanes, chosen.heat, record.partners.get(chosen.segment, ()))
