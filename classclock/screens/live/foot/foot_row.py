"""The last row of the screen: what is said, the keys that matter now, the emergency card's sign."""

from collections.abc import Sequence

from msgspec import Struct
from rich.cells import cell_len, set_cell_size

from classclock.wall.notices.turns import Shown

EMERGENCY = "! emergency card"
SHORT_EMERGENCY = "! card"
_WIDE = 80
"""Columns from which there is room to be generous."""


class FootContent(Struct, frozen=True):
    shown: Shown = Shown()
    keys: tuple[str, ...] = ()
    """The weightiest first."""


class FootRow(Struct, frozen=True):
    said: str
    right: str
    """A count, keys and the sign, which is always there and stands last."""
    emergency: int
    """From which column on the sign stands."""


def words_room(columns: int, count: str) -> int:
    """The columns for what is said in a row of so many, beside its count and the sign."""
    right = (count, _sign(columns)) if count else (_sign(columns),)
    return max(10, columns - 2 - sum(cell_len(part) + _between(columns) for part in right))


def keys_room(keys: Sequence[str], columns: int) -> int:
    """The columns that the weightiest keys take in a row of so many."""
    weightiest = keys[: 2 if columns >= _WIDE else 1]
    return sum(cell_len(key) + _between(columns) for key in weightiest)


def set_row(content: FootContent, columns: int) -> FootRow:
    """What fits: what is to be read now whole, then as many keys as can be.

    What has had its turn is cut where the weightiest keys begin.
    """
    shown, sign, between = content.shown, _sign(columns), _between(columns)
    room = words_room(columns, shown.count)
    said = shown.text
    if not shown.in_turn:
        left = room - keys_room(content.keys, columns)
        if cell_len(said) > left:
            said = f"{set_cell_size(said, max(0, left - 2)).rstrip()} …"
    # With nothing said keys may begin at the very edge.
    room -= cell_len(said) if said else -between - 1
    right = [shown.count] if shown.count else []
    for key in content.keys:
        room -= between + cell_len(key)
        if room < 0:
            break
        right.append(key)
    return FootRow(said, (" " * between).join((*right, sign)), columns - 1 - cell_len(sign))


def _sign(columns: int) -> str:
    return EMERGENCY if columns >= _WIDE else SHORT_EMERGENCY


def _between(columns: int) -> int:
    return 4 if columns >= _WIDE else 2
