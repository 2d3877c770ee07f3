"""What a segment needs of each piece of equipment, and what the club has of it."""

from collections.abc import Iterable, Mapping

from msgspec import Struct

from classclock.plan.model import Segment
from classclock.plan.movements.library import Library
from classclock.plan.settings.club import Club

Need = Mapping[str, int]
"""Pieces by folded name, and how many of each are needed at once."""
Inventory = Mapping[str, int]
"""Pieces by folded name, and how many the club has; what isn't in it was never counted."""


class Short(Struct, frozen=True):
    """A piece of which there isn't enough."""

    piece: str
    needed: int
    there: int


def inventory_of(club: Club) -> Inventory:
    """What the club has counted; bars are those of its [[bar]] unless [equipment] names them."""
    if not club.inventory:
        return {}
    # What a small club usually has stands in for bars that nobody wrote down: it is no count.
    bars = {"bar": sum(bar.count for bar in club.bar)} if club.bar != _usual(club).bar else {}
    return {**bars, **club.inventory}


def _usual(club: Club) -> Club:
    return Club(unit=club.unit)


def station_needs(segment: Segment, library: Library) -> tuple[Need, ...]:
    """What one lane needs at each station; a lift without stations is one station.

    A movement that the library doesn't know needs nothing that is known of.
    """
    if segment.station:
        return tuple(library.needs_of(station.movement) for station in segment.station)
    return (library.needs_of(segment.lift),) if segment.lift else ()


def most_at_once(needs: Iterable[Need]) -> Need:
    """What one lane can need at one moment, at whichever station it is."""
    most: dict[str, int] = {}
    for need in needs:
        for piece, count in need.items():
            most[piece] = max(count, most.get(piece, 0))
    return most


def shortage(needs: Iterable[Need], lanes: int, inventory: Inventory) -> tuple[Short, ...]:
    """What is short when so many lanes start together, wherever they drift to afterwards."""
    return tuple(
        Short(piece, count * lanes, inventory[piece])
        for piece, count in most_at_once(needs).items()
        if piece in inventory and count * lanes > inventory[piece]
    )


def uncounted(needs: Iterable[Need], inventory: Inventory) -> tuple[str, ...]:
    """The pieces that are needed and were never counted."""
    return tuple(piece for piece in most_at_once(needs) if piece not in inventory)
