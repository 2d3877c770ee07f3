"""Movements that the plan names and the library doesn't know: said as a hint, never a fault."""

from collections.abc import Iterator
from typing import Any

from classclock.plan.findings import Fault
from classclock.plan.movements.library import Library
from classclock.plan.written_values import tables
from classclock.units.printable import printable


def unknown_movements(values: dict[str, Any], library: Library) -> Iterator[Fault]:
    """Find the stations whose movement isn't known and that give no standard of their own."""
    for number, segment in tables(values.get("segment")):
        for place, station in tables(segment.get("station")):
            movement = station.get("movement")
            if not isinstance(movement, str) or not movement.strip() or "standard" in station:
                continue
            if library.find(movement) is None:
                path = ("segment", number, "station", place, "movement")
                yield Fault(
                    path,
                    f'"{printable(movement)}" has no standard',
                    _instead(movement, library),
                    "hint",
                )


def _instead(movement: str, library: Library) -> str:
    near = library.nearest(movement)
    own = 'standard = "…" for one of your own'
    return f'Write "{printable(near)}", or {own}' if near else f"Write {own}"
