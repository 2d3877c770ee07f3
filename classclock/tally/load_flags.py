"""Flags on the loads of a class: which there are, and which the coach hasn't looked at yet."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from msgspec import Struct

from classclock.tally.record import ClassRecord

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads


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
        LoadFlag(person.id, person.key, person.name, index, record.plan.segment[index].name, text)
        for index in segments
        if record.plan.segment[index].teams is None
        for person in record.people
        for planned in [
            loads.of(index, person.id, person.name, record.choice(person.id, index).load)
        ]
        if planned is not None
        for text in planned.flags
    )


def open_flags(
    record: ClassRecord, loads: "ClassLoads | None", segments: Iterable[int]
) -> tuple[LoadFlag, ...]:
    """Those that nobody has acknowledged."""
    found = load_flags(record, loads, segments)
    return tuple(
        one for one in found if (one.person_id, one.segment, one.text) not in record.acknowledged
    )
