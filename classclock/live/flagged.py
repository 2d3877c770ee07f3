"""Flags on the loads of a class: which there are, and which the coach hasn't looked at yet."""

from collections.abc import Iterable

from msgspec import Struct

from classclock.live.live_class import LiveClass


class Flag(Struct, frozen=True):
    """One thing to look at before a segment starts."""

    person_id: str
    key: str
    name: str
    segment: int
    piece: str
    text: str


def flags_of(live: LiveClass, segments: Iterable[int]) -> tuple[Flag, ...]:
    """All flags on the loads of those who are here, in these segments.

    None, as long as `live.plan_loads` hasn't read what everybody is to lift.
    """
    record, loads = live.record, live.loads
    if loads is None:
        return ()
    return tuple(
        Flag(person.id, person.key, person.name, index, record.plan.segment[index].name, text)
        for index in segments
        if record.plan.segment[index].teams is None
        for person in record.people
        for planned in [
            loads.of(index, person.id, person.name, record.choice(person.id, index).load)
        ]
        if planned is not None
        for text in planned.flags
    )


def open_flags(live: LiveClass, segments: Iterable[int]) -> tuple[Flag, ...]:
    """Those that nobody has acknowledged."""
    read = live.record.acknowledged
    found = flags_of(live, segments)
    return tuple(one for one in found if (one.person_id, one.segment, one.text) not in read)


def flag_words(live: LiveClass) -> str:
    """That loads of the segment on the board are to be looked at: neither whose nor why."""
    count = len(open_flags(live, (live.record.chosen.segment,)))
    if not count:
        return ""
    return f"{count} load{'s' if count > 1 else ''} to look at before the start: F7"


def to_come(live: LiveClass) -> range:
    """The segment on the board and those after it."""
    return range(live.record.chosen.segment, len(live.record.plan.segment))
