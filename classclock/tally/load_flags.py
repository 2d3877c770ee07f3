"""Flags on the loads of a class: which there are, and which the coach hasn't looked at yet."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from msgspec import Struct

from classclock.strength.chosen_loads import as_chosen
from classclock.tally.lanes import Person
from classclock.tally.record import ClassRecord

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads, LiftPlan


class LoadFlag(Struct, frozen=True):
    """One thing to look at before a segment starts."""

    person_id: str
    key: str
    name: str
    segment: int
    piece: str
    text: str


def load_flags(
    record: ClassRecord, loads: "ClassLoads | None", segments: Iterable[int]
) -> tuple[LoadFlag, ...]:
    """All flags on the loads of those who are here, in these segments.

    None, as long as nobody has read what everybody is to lift.
    """
    if loads is None:
        return ()
    return tuple(
        _flag(record, person, index, text)
        for index in segments
        for person, planned in _planned(record, loads, index)
        for text in _texts(record, person, planned, index)
    )


def _texts(record: ClassRecord, person: Person, planned: "LiftPlan", index: int) -> tuple[str, ...]:
    chosen = record.chosen_loads.get((index, person.id))
    return planned.flags_on(as_chosen(planned.loads, chosen)) if chosen else planned.flags


def loads_to_choose(
    record: ClassRecord, loads: "ClassLoads | None", segments: Iterable[int]
) -> tuple[LoadFlag, ...]:
    """Who is to lift a share of a maximum that nobody knows.

    The board says it in place of a load; this is for where there is no board.
    """
    if loads is None:
        return ()
    from classclock.strength.flags import NO_RECORD  # noqa: PLC0415  no board asks for it

    return tuple(
        _flag(record, person, index, NO_RECORD)
        for index in segments
        for person, planned in _planned(record, loads, index)
        if planned.to_choose and NO_RECORD not in planned.flags
    )


def _planned(
    record: ClassRecord, loads: "ClassLoads", index: int
) -> "Iterator[tuple[Person, LiftPlan]]":
    """What everybody is to lift in a segment; nobody in one that is no lift, or of teams."""
    if record.plan.segment[index].teams is not None:
        return
    for person in record.here:
        choice = record.choice(person.id, index)
        planned = loads.of(index, person.id, person.name, choice.load)
        if planned is not None:
            yield person, planned


def _flag(record: ClassRecord, person: Person, index: int, text: str) -> LoadFlag:
    name = record.plan.segment[index].name
    return LoadFlag(person.id, person.key, person.name, index, name, text)


def open_flags(
    record: ClassRecord, loads: "ClassLoads | None", segments: Iterable[int]
) -> tuple[LoadFlag, ...]:
    """Those that nobody has acknowledged."""
    found = load_flags(record, loads, segments)
    return tuple(
        one for one in found if (one.person_id, one.segment, one.text) not in record.acknowledged
    )
