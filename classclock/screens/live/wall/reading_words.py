"""What can be read from the back of the room, in words, for `check`."""

from classclock.plan.settings.club import Tv
from classclock.screens.live.wall.readable import LEAST_MINUTES, wall_legibility
from classclock.units.cell_dots import CellDots


def reading_lines(
    tv: Tv, columns: int, rows: int, lanes: int, *, dots: CellDots = "sextants"
) -> tuple[str, ...]:
    """One line for each kind of lettering on the wall."""
    kinds = wall_legibility(tv.inches, tv.metres, columns, rows, lanes, dots=dots)
    head = (
        f"  On a {tv.inches:g}-inch TV, from {tv.metres:g} m, with {lanes} lanes "
        f"in a window of {columns} x {rows}:"
    )
    lines = [
        f"    {kind.what:<16}  read up to {kind.farthest:4.1f} m"
        + (f"  ({kind.minutes:.1f}' of arc)" if kind.reaches else _too_small(kind.minutes))
        for kind in kinds
    ]
    return (head, *lines)


def _too_small(minutes: float) -> str:
    return f": too small here  ({minutes:.1f}' of arc, {LEAST_MINUTES}' is the least)"
