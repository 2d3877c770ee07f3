"""What stays off the wall of those who want it so: their loads, rank and bests; a dash instead."""

from collections.abc import Iterable

from classclock.live.live_class import Outcome
from classclock.tally import events as ev
from classclock.tally.lanes import Lane, Person
from classclock.tally.record import ClassRecord

DASH = "-"
MARKED = "•"
"""Stands for marks that the room may not read."""


def off_the_wall(lane: Lane, people: Iterable[Person]) -> bool:
    """Whether somebody in this lane keeps these things to themselves."""
    return any(one.off_the_wall and one.id in lane.members for one in people)


def said_to_the_room(outcome: Outcome, record: ClassRecord) -> str:
    """What came of a command, in words that say no load of theirs."""
    for event in outcome.events:
        if isinstance(event, ev.LoadChosen):
            person = record.person(event.person_id)
            if person is not None and person.off_the_wall:
                return f"{person.name}: noted"
    sheet = record.sheet
    if sheet is None or sheet.piece.counts_by != "load":
        return outcome.text
    for event in outcome.events:
        lane_id = _lane_of(event, record)
        tally = sheet.tallies.get(lane_id or "")
        if tally is not None and off_the_wall(tally.lane, record.people):
            return f"{tally.lane.name}: noted"
    return outcome.text


def _lane_of(event: ev.Event, record: ClassRecord) -> str | None:
    if isinstance(event, ev.LaneEvent):
        return event.lane
    if isinstance(event, ev.TookBack | ev.BroughtBack):
        return record.sheet.ledgers.lane_of(event.entry) if record.sheet is not None else None
    return None
