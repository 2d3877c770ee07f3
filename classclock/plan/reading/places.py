"""Which keys go where, and what to say about one that stands in the wrong place."""

import json
from typing import Any, get_args

from pydantic import BaseModel

from classclock.plan.file_key import nearest
from classclock.plan.findings import Fault, Path
from classclock.plan.keys import KEYS, assignment
from classclock.plan.model import FORMATS, LENGTH_KEYS, Plan
from classclock.plan.station import Station
from classclock.plan.written_values import Table
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
    written = values["segment"][path[1]]
    segment = FORMATS[str(written["format"])]
    within = [part for part in path[2:-1] if isinstance(part, str)]
    if not within:
        return _in_segment(path, key, written)
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


def _in_segment(path: Path, key: str, written: Table) -> Fault:
    shown, form = printable(key, 40), str(written["format"])
    about = FORMATS[form].about
    goes_not = f'"{shown}" doesn\'t go with format = "{form}"'
    meant = about.length_key if key in LENGTH_KEYS else about.also_called.get(key)
    if meant:
        return Fault(path, goes_not, f'Write "{meant}"', meant=meant)
    others = [name for name, one in FORMATS.items() if key in keys_of(one)]
    if others:
        formats = " or ".join(f'"{name}"' for name in others)
        return Fault(path, goes_not, f"Take it out, or write format = {formats}")
    if (table := _holding(key, form)) and not (key in keys_of(Station) and "lift" not in written):
        what = f'"{shown}" belongs within {table}, not to the segment itself'
        return Fault(path, what, f"Write {{ {_again(key, written[key])} }} within {table} = […]")
    if key in keys_of(Station):
        what = f'"{shown}" belongs to a station, not to the segment'
        return Fault(path, what, f'Write "{shown}" under a [[segment.station]]')
    elsewhere = [(name, held) for name in FORMATS if (held := _holding(key, name))]
    if elsewhere:
        name, table = elsewhere[0]
        instead = f'Take it out, or write format = "{name}" with it within {table}'
        return Fault(path, goes_not, instead)
    return _unknown(path, key, keys_of(FORMATS[form]))


def _holding(key: str, form: str) -> str | None:
    """The key of this format, beside its stations, within whose tables this key stands."""
    for name, field in FORMATS[form].model_fields.items():
        table = _table_in(field.annotation) if name not in ("station", "cues") else None
        if table is not None and key in keys_of(table):
            return name
    return None


def _again(key: str, value: object) -> str:
    """The key with its value as it was written; with the example's, where that is no plain one."""
    plain = isinstance(value, str | int | float) and not isinstance(value, bool)
    return assignment(key, json.dumps(value, ensure_ascii=False) if plain else None)


def _unknown(path: Path, key: str, known: tuple[str, ...]) -> Fault:
    what = f'unknown key "{printable(key, 40)}"'
    near = _meant(key, known)
    if near is None:
        return Fault(path, what, f"Take it out; what goes here: {', '.join(known)}")
    return Fault(path, what, f'Write "{near}"', meant=near)


def _meant(key: str, known: tuple[str, ...]) -> str | None:
    """The key that was meant; one that goes elsewhere isn't misspelt."""
    other = _OTHER_WORDS.get(key.lower())
    if other in known:
        return other
    return None if key in KEYS else nearest(key, known)
