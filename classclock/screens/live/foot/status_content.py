"""The last line of the screen: what was said last, and the keys that matter now."""

from textwrap import wrap

from msgspec import Struct
from rich.cells import cell_len, set_cell_size

from classclock.tally.record import Phase

EMERGENCY = "! emergency card"
SHORT_EMERGENCY = "! card"
_BETWEEN = 4
"""Columns between what stands side by side."""
_ENDS = 2
"""Free columns at the line's two ends."""
_MOST_ROWS = 3


class StatusContent(Struct, frozen=True):
    said: str = ""
    keys: tuple[str, ...] = ()
    alarm: bool = False
    """What is said is a standing trouble."""


def keys_now(
    phase: Phase, *, scored: bool, countdown: bool, all_in: bool, teaches: bool = False
) -> tuple[str, ...]:
    """The few keys that matter now, the weightiest first.

    `teaches`: the segment has movements of which there is something to teach.
    """
    match phase:
        case "board":
            teach = ("tab teaches",) if teaches else ()
            rest = ("up, down: another segment", "F3 sound check")
            return ("enter starts", "? keys", *teach, *rest)
        case "count-in":
            return ("space calls it off", "? keys")
        case "running" if all_in:
            return ("enter ends it now", "? keys", "backspace takes it back")
        case "running" if scored:
            return ("space holds", "? keys", "backspace takes it back")
        case "running":
            more = ("up: a minute more",) if countdown else ()
            return ("space holds", "? keys", *more)
        case "held":
            return ("space resumes", "enter ends it", "? keys", "ctrl+r begins anew")
        case "over" if scored:
            return ("enter goes on", "? keys", "a letter selects")
        case "over":
            return ("enter goes on", "? keys")
        case "closed":
            return ("ctrl+q leaves", "up goes back")


class StatusRows(Struct, frozen=True):
    """The line set in columns; what is said may need more rows than one."""

    said: tuple[str, ...]
    keys: str
    emergency: str


def set_rows(content: StatusContent, columns: int, *, short: bool = False) -> StatusRows:
    """What fits: the emergency sign always, what was said whole, then as many keys as can be.

    `short` keeps it to one row, what was said being cut where the weightiest keys begin.
    """
    emergency = EMERGENCY if columns >= 80 else SHORT_EMERGENCY
    room = columns - cell_len(emergency) - _BETWEEN - _ENDS
    said = tuple(wrap(content.said, max(10, room)))[:_MOST_ROWS] or ("",)
    if short:
        weightiest = (" " * _BETWEEN).join(content.keys[: 2 if columns >= 80 else 1])
        left = room - cell_len(weightiest) - _BETWEEN
        if len(said) > 1 or cell_len(said[0]) > left:
            said = (f"{set_cell_size(said[0], left - 2).rstrip()} …",)
    keys = ""
    taken = max(map(cell_len, said))
    for key in content.keys:
        longer = f"{keys}{' ' * _BETWEEN if keys else ''}{key}"
        if taken + _BETWEEN + cell_len(longer) > room:
            break
        keys = longer
    return StatusRows(said, keys, emergency)
