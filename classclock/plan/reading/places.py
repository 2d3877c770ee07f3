"""Which keys go where, and what to say about one that stands in the wrong place."""

from typing import Any, get_args

from pydantic import BaseModel

from classclock.plan.file_key import nearest
from classclock.plan.findings import Fault, Path
from classclock.plan.model import FORMATS, LENGTH_KEYS, Plan
from classclock.plan.station import Station
from classclock.units.printable import printable

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


def misplaced_key(path: Path, values: dict[str, Any]) -> Fault:
    """Answer a key that doesn't go where it stands, with the one that was likely meant.

    The segment that the path leads into must have a known format.
    """
    key = str(path[-1])
    if len(path) == 1:
        return _unknown(path, key, keys_of(Plan))
    form = str(values["segment"][path[1]]["format"])
    segment = FORMATS[form]
    within = [part for part in path[2:-1] if isinstance(part, str)]
    if not within:
        return _in_segment(path, key, form)
    if key in keys_of(segment):
        shown = printable(key, 40)
        what = f'"{shown}" belongs to the segment, not to its {within[-1]}'
        return Fault(path, what, f'Write "{shown}" above the segment\'s first [[segment.station]]')
    table: type[BaseModel] = segment
    for part in within:
        table = _table_in(table.model_fields[part].annotation) or table
    return _unknown(path, key, keys_of(table))


def _table_in(hint: object) -> type[BaseModel] | None:
    """What stands in a key of this type, where that are tables."""
    if isinstance(hint, type) and issubclass(hint, BaseModel):
        return hint
    return next((found for part in get_args(hint) if (found := _table_in(part))), None)


def _in_segment(path: Path, key: str, form: str) -> Fault:
    shown = printable(key, 40)
    meant = FORMATS[form].about.length_key
    if meant and key in LENGTH_KEYS:
        what = f'"{key}" doesn\'t go with format = "{form}"'
        return Fault(path, what, f'Write "{meant}"', meant=meant)
    others = [name for name, one in FORMATS.items() if key in keys_of(one)]
    if others:
        what = f'"{key}" doesn\'t go with format = "{form}"'
        formats = " or ".join(f'"{name}"' for name in others)
        return Fault(path, what, f"Take it out, or write format = {formats}")
    if key in keys_of(Station):
        what = f'"{shown}" belongs to a station, not to the segment'
        return Fault(path, what, f'Write "{shown}" under a [[segment.station]]')
    return _unknown(path, key, keys_of(FORMATS[form]))


def _unknown(path: Path, key: str, known: tuple[str, ...]) -> Fault:
    what = f'unknown key "{printable(key, 40)}"'
    near = _meant(key, known)
    if near is None:
        return Fault(path, what, f"Take it out; what goes here: {', '.join(known)}")
    return Fault(path, what, f'Write "{near}"', meant=near)


def _meant(key: str, known: tuple[str, ...]) -> str | None:
    other = _OTHER_WORDS.get(key.lower())
    return other if other in known else nearest(key, known)
