"""pydantic's complaints in the coach's words."""

import datetime as dt
import re
from typing import Any

from pydantic_core import ErrorDetails

from classclock.plan.file_key import FileKey, nearest
from classclock.plan.findings import Fault, Path
from classclock.plan.keys import CUE, KEYS, assignment, choices
from classclock.plan.model import FORMATS
from classclock.plan.reading.meant import meant
from classclock.plan.reading.places import misplaced_key
from classclock.plan.reading.rules import which_time
from classclock.units.printable import can_be_shown, printable
from classclock.units.times import show_time

_WHOLE = re.compile(r"\d{1,6}", re.ASCII)


def fault_of(error: ErrorDetails, values: dict[str, Any]) -> Fault:
    """Translate one complaint about these values."""
    path = _real_path(error["loc"], values)
    if error["type"] == "extra_forbidden":
        return misplaced_key(path, values)
    if error["type"] == "missing":
        absent = str(error["loc"][-1])
        what = f'"{absent}" is missing'
        return Fault(path, what, f"Write {assignment(absent)}", missing=(absent,))
    key = next((str(part) for part in reversed(path) if part in KEYS or "cues" in path), "")
    value = error["input"]
    if error["type"] == "too_long" and not isinstance(value, str):
        return Fault(path, *too_many(key, error))
    if error["type"] == "literal_error":
        expected = tuple(re.findall(r"'([^']+)'", str(error.get("ctx", {}).get("expected", ""))))
        return _choice(path, key, value, expected)
    return _value(path, key, value)


def too_many(key: str, error: ErrorDetails) -> tuple[str, str]:
    """What is wrong with a list of more entries than it may have, and what to do."""
    there, most = len(error["input"]), error["ctx"]["max_length"]
    return f"{key} has {there} entries, {most} is the most", f"Leave {most} of them"


def show(value: object) -> str:
    """Show a value as the file has it, in a few words."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return f'"{printable(value, 40)}"'
        case int() if abs(value) >= 10**12:
            return "a number that is far too large"
        case int() | float() | dt.date() | dt.time():
            return str(value)
        case dict():
            return "a table { … }"
        case list():
            return "a list […]" if value else "[]"
        case _:
            return "this"


def _real_path(loc: tuple[int | str, ...], values: dict[str, Any]) -> Path:
    """Leave out what pydantic put into the path to name a format or a kind of load."""
    path: Path = ()
    here: Any = values
    for part in loc:
        if isinstance(part, int) or (isinstance(here, dict) and part in here):
            here = here[part]
            path = (*path, part)
    return path


def _choice(path: Path, key: str, value: object, known: tuple[str, ...]) -> Fault:
    if key == "count" and value == "finish":
        formats = [f'"{form}"' for form in FORMATS if "finish" in choices(form, "count")]
        what = f'count = "finish" goes only with format = {" or ".join(formats)}'
        return Fault(path, what, 'Write count = "round" or "station"')
    near = nearest(value, known) if isinstance(value, str) else None
    what = f"{key} = {show(value)} is not one of {', '.join(known)}"
    return Fault(path, what, f'Write {key} = "{near or known[0]}"')


def _value(path: Path, key: str, value: object) -> Fault:
    known = CUE if "cues" in path[:-1] else KEYS.get(key, FileKey("text", '"…"'))
    if isinstance(value, dt.time):
        ms = ((value.hour * 60 + value.minute) * 60 + value.second) * 1000
        what = f"{value} without quotes is a time of day"
        return Fault(path, what, f'Write {key} = "{show_time(ms)}"')
    if known.takes.startswith("a time") and (number := _whole(value)):
        return Fault(path, *which_time(key, number))
    if value in ("", [], {}):
        return Fault(path, f'"{key}" is empty', f"Write {assignment(key, known.example)}")
    if isinstance(value, str) and known.is_text and not can_be_shown(value):
        what = f"{key} = {show(value)} holds a character that can't be shown"
        return Fault(path, what, "Type the text again")
    verb = "holds" if path[-1] != key else "="
    what = f"{key} {verb} {show(value)}, which is not {known.takes}"
    guess = meant(key, known, value) if path[-1] == key else None
    return Fault(path, what, f"Write {guess or assignment(key, known.example)}")


def _whole(value: object) -> int | None:
    return int(value) if isinstance(value, str) and _WHOLE.fullmatch(value.strip()) else None
