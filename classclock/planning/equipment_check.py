"""What `check` says of the equipment for so many people: what is short, and what to do about it."""

from collections.abc import Iterator, Sequence

from msgspec import Struct, to_builtins

from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Plan, Segment
from classclock.plan.movements.library import Library
from classclock.plan.outline import outline
from classclock.plan.settings.club import Club
from classclock.planning.equipment import (
    Inventory,
    Short,
    inventory_of,
    most_at_once,
    shortage,
    station_needs,
    uncounted,
)
from classclock.planning.staging import Staging, propose_staging, usual_heats
from classclock.planning.staging_words import (
    short_words,
    spare_words,
    staging_words,
    who_starts_where,
)
from classclock.units.printable import printable
from classclock.units.spelling import plural
from classclock.units.times import show_time

NOTHING_FITS = "nothing fits that: write another movement, or an option without it"


class Room(Struct, frozen=True):
    """How many come, and what there is."""

    people: int
    names: tuple[str, ...]
    """Who they are, in their order; empty where only their number is known."""
    inventory: Inventory
    library: Library
    class_length: int
    """Milliseconds."""


def room_for(athletes: int | tuple[str, ...], club: Club, library: Library) -> Room:
    """The room for so many people, or for these."""
    names = athletes if isinstance(athletes, tuple) else ()
    people = athletes if isinstance(athletes, int) else len(names)
    return Room(people, names, inventory_of(club), library, club.class_length)


class Shared(Struct, frozen=True):
    """A segment that lacks something, and the ways to do it all the same."""

    segment: Segment
    short: tuple[Short, ...]
    ways: tuple[Staging, ...]


def shared_segments(plan: Plan, room: Room) -> Iterator[Shared]:
    """Find the segments with less equipment than these people need. The plan is a completed one."""
    for segment in plan.segment:
        lanes = usual_heats(segment, room.people)[0]
        short = shortage(station_needs(segment, room.library), lanes, room.inventory)
        if short:
            ways = propose_staging(segment, room.people, room.inventory, room.library)
            yield Shared(segment, short, ways)


def equipment_lines(plan: Plan, room: Room) -> tuple[str, ...]:
    """The whole answer, line by line, for a terminal."""
    people = "1 person" if room.people == 1 else f"{room.people} people"
    if not room.inventory:
        return (f"  For {people} no equipment is counted yet.", *_uncounted(plan, room))
    lines = [line for shared in shared_segments(plan, room) for line in _lines(plan, shared, room)]
    head = f"  For {people}:" if lines else f"  For {people} nothing that was counted is short."
    return (head, *lines, *_uncounted(plan, room))


def equipment_values(plan: Plan, room: Room) -> dict[str, object]:
    """The same as plain values; lengths in whole seconds, stations and lanes from 0."""
    return {
        "people": room.people,
        "uncounted": list(_pieces_uncounted(plan, room)),
        "segments": [
            {
                "name": shared.segment.name,
                "short": [to_builtins(one) for one in shared.short],
                "ways": [
                    {
                        "words": staging_words(way, shared.segment),
                        "heats": [list(heat) for heat in way.heats],
                        "team": way.team,
                        "modified": [to_builtins(one) for one in way.modified],
                        "extra_seconds": way.extra // 1000,
                        "class_seconds": _class_length(plan, shared.segment, way) // 1000,
                        "no_spare": list(way.no_spare),
                    }
                    for way in shared.ways
                ],
            }
            for shared in shared_segments(plan, room)
        ],
    }


def _lines(plan: Plan, shared: Shared, room: Room) -> Iterator[str]:
    name = printable(shared.segment.name, 28)
    for one in shared.short:
        yield f"    {name}: {short_words(one)}"
    for way in shared.ways:
        yield f"      {way_words(plan, shared.segment, way, room)}"
    if not shared.ways:
        yield f"      {NOTHING_FITS}"
    elif room.names:
        first = who_starts_where(shared.ways[0], shared.segment, room.names)
        for where, who in first:
            yield f"        {printable(where)}: {printable(who, 200)}"


def way_words(plan: Plan, segment: Segment, way: Staging, room: Room) -> str:
    """What to do, what it costs, what that makes of the class, where somebody may wait."""
    words, spare = staging_words(way, segment), spare_words(way)
    return f"{words}{_hour(plan, segment, way, room)}{'; ' if spare else ''}{spare}"


def _class_length(plan: Plan, segment: Segment, way: Staging) -> int:
    once = timeline(segment).total + segment.count_in
    return outline(plan).total_with_count_ins_ms + way.length - once


def _hour(plan: Plan, segment: Segment, way: Staging, room: Room) -> str:
    if not way.extra:
        return ""
    length = _class_length(plan, segment, way)
    over = length - room.class_length
    words = f", {show_time(length)} in all with the count-ins"
    if over > 0:
        words += f", {show_time(over)} over the class's {show_time(room.class_length)}"
    return words


def _uncounted(plan: Plan, room: Room) -> Sequence[str]:
    pieces = _pieces_uncounted(plan, room)
    if not pieces:
        return ()
    names = [plural(piece) if piece.isalnum() else f'"{plural(piece)}"' for piece in pieces]
    named = printable(", ".join(names), 1000)
    instead = f"Write {printable(names[0])} = 4 under [equipment] in club.toml"
    return (f"    Not counted, so taken to be there: {named}. {instead}.",)


def _pieces_uncounted(plan: Plan, room: Room) -> tuple[str, ...]:
    needs = [most_at_once(station_needs(one, room.library)) for one in plan.segment]
    return uncounted(needs, room.inventory)
