"""An event as one line of JSON, and back."""

import json
from typing import Any, get_args

from msgspec import ValidationError, convert, to_builtins

from classclock.tally.events import Event
from classclock.units.printable import printable

NAMED: dict[str, type[Event]] = {kind.__name__: kind for kind in get_args(Event)}
_MORE = "Object contains unknown field"
"""So msgspec begins, in an event or in what stands in it."""


class LaterEventError(ValueError):
    """An event that this version doesn't know, or more of one than it knows.

    `str` names it, in a few words. To skip it would be to count something else than the coach did.
    """


def event_line(event: Event, number: int, wall: str) -> bytes:
    """One line, ended by a line feed. `wall` is the time of day it is written, RFC 3339."""
    fields = to_builtins(event)
    line = {"n": number, "event": type(event).__name__, "wall": wall, **fields}
    return json.dumps(line, ensure_ascii=True, separators=(",", ":")).encode() + b"\n"


def event_of(line: dict[str, Any]) -> Event:
    """The event that a line's fields tell.

    Raises:
        LaterEventError: a later version wrote it.
        ValueError: it makes no sense.
    """
    name = line.get("event")
    if not isinstance(name, str):
        raise ValueError("it names no event")
    kind = NAMED.get(name)
    if kind is None:
        raise LaterEventError(f'"{printable(name)}"')
    fields = {key: value for key, value in line.items() if key not in ("n", "event", "wall")}
    try:
        return convert(fields, kind)
    except ValidationError as error:
        if str(error).startswith(_MORE):
            raise LaterEventError(f'"{name}" with more in it than is known here') from None
        raise ValueError(str(error)) from None
