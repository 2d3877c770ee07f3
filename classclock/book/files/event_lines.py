"""An event as one line of JSON, and back."""

import json
from typing import Any

from msgspec import ValidationError, convert, to_builtins

from classclock.tally import events

NAMED: dict[str, type[events.Event]] = {
    name: kind
    for name, kind in vars(events).items()
    if isinstance(kind, type)
    and issubclass(kind, events.Event)
    and kind not in (events.Event, events.LaneEvent)
}


def event_line(event: events.Event, number: int, wall: str) -> bytes:
    """One line, ended by a line feed. `wall` is the time of day it is written, RFC 3339."""
    fields = to_builtins(event)
    line = {"n": number, "event": type(event).__name__, "wall": wall, **fields}
    return json.dumps(line, ensure_ascii=True, separators=(",", ":")).encode() + b"\n"


def event_of(line: dict[str, Any]) -> events.Event:
    """The event that a line's fields tell.

    Raises:
        ValueError: it isn't one of ours.
    """
    name = str(line.get("event"))
    if name not in NAMED:
        raise ValueError(f"no event is called {name!r}")
    fields = {key: value for key, value in line.items() if key not in ("n", "event", "wall")}
    try:
        return convert(fields, NAMED[name])
    except ValidationError as error:
        raise ValueError(str(error)) from None
