"""Which keys go where, and what to say about one that stands in the wrong place."""

from typing import Any

from pydantic import BaseModel

from classclock.plan.findings import Fault, Path
from classclock.plan.keys import FORMATS, nearest
from classclock.plan.model import (
    CappedForTime,
    Climb,
    Countdown,
    Cues,
    Interval,
    LiftSet,
    Option,
    Plan,
    RoundsInTime,
    Station,
    Step,
)
from classclock.units.printable import printable

SEGMENTS: dict[str, type[BaseModel]] = {
    "countdown": Countdown,
    "interval": Interval,
    "rounds-in-time": RoundsInTime,
    "capped-for-time": CappedForTime,
}
_WITHIN: dict[str, type[BaseModel]] = {
    "station": Station,
    "options": Option,
    "steps": Step,
    "sets": LiftSet,
    "cues": Cues,
    "climb": Climb,
}
# Everyday words for keys, too far from them in spelling to be found by it.
_OTHER_WORDS = {
    "weight": "load",
    "distance": "metres",
    "meters": "metres",
    "duration": "time",
    "minutes": "time",
    "exercise": "movement",
    "repetitions": "reps",
    "cals": "calories",
}


def keys_of(table: type[BaseModel]) -> tuple[str, ...]:
    return tuple(table.model_fields)


def format_of(values: dict[str, Any], path: Path) -> str:
    """Look up the format of the segment that the path leads into; it must have a known one."""
    return str(values["segment"][path[1]]["format"])


def misplaced_key(path: Path, values: dict[str, Any]) -> Fault:
    """Answer a key that doesn't go where it stands, with the one that was likely meant."""
    key = str(path[-1])
    shown = printable(key, 40)
    place = next((part for part in reversed(path[:-1]) if isinstance(part, str)), "")
    if place == "segment":
        return _in_segment(path, key, format_of(values, path))
    known = keys_of(_WITHIN.get(place, Plan))
    if len(path) > 2 and key in keys_of(SEGMENTS[format_of(values, path)]):
        what = f'"{shown}" belongs to the segment, not to its {place}'
        return Fault(path, what, f'Write "{shown}" above the segment\'s first [[segment.station]]')
    return _unknown(path, key, known)


def _in_segment(path: Path, key: str, form: str) -> Fault:
    shown = printable(key, 40)
    if key in {"time", "cap"}:
        meant = "cap" if key == "time" else "time"
        if meant in keys_of(SEGMENTS[form]):
            what = f'"{key}" doesn\'t go with format = "{form}"'
            return Fault(path, what, f'Write "{meant}"', meant=meant)
    others = [name for name in FORMATS if key in keys_of(SEGMENTS[name])]
    if others:
        what = f'"{key}" doesn\'t go with format = "{form}"'
        formats = " or ".join(f'"{name}"' for name in others)
        return Fault(path, what, f"Take it out, or write format = {formats}")
    if key in keys_of(Station):
        what = f'"{shown}" belongs to a station, not to the segment'
        return Fault(path, what, f'Write "{shown}" under a [[segment.station]]')
    return _unknown(path, key, keys_of(SEGMENTS[form]))


def _unknown(path: Path, key: str, known: tuple[str, ...]) -> Fault:
    what = f'unknown key "{printable(key, 40)}"'
    near = _meant(key, known)
    if near is None:
        return Fault(path, what, f"Take it out; what goes here: {', '.join(known)}")
    return Fault(path, what, f'Write "{near}"', meant=near)


def _meant(key: str, known: tuple[str, ...]) -> str | None:
    other = _OTHER_WORDS.get(key.lower())
    return other if other in known else nearest(key, known)
