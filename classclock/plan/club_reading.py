"""Reading `club.toml`: the club, or everything that is wrong with it at once."""

from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from classclock.plan.club import Club
from classclock.plan.findings import Finding
from classclock.plan.keys import Key, nearest
from classclock.plan.positions import Positions
from classclock.plan.syntax import read_toml
from classclock.plan.wording import show

LARGEST = 64 * 1024
"""Bytes: settings are a page."""

KEYS: dict[str, Key] = {
    "name": Key("text", '"The Depot"'),
    "unit": Key("one of kg, lb", '"kg"'),
    "class_length": Key("a time above 0:00", '"1:00:00"'),
    "theme": Key("one of dark, light", '"dark"'),
    "emergency": Key("a table", "[emergency]"),
    "address": Key("text", '"12 Depot Lane, back gate"'),
    "defibrillator": Key("text", '"left of the front door"'),
    "first_aid": Key("text", '"shelf behind the desk"'),
    "call": Key("text", '"112"'),
    "tv": Key("a table", "[tv]"),
    "inches": Key("a number above 5 and below 200", "55"),
    "metres": Key("a number above 0.5 and below 50", "10"),
    "mirrored": Key("true or false", "true"),
    "sound": Key("a table", "[sound]"),
    "volume": Key("a whole number from 0 to 100", "80"),
    "offset_ms": Key("a whole number from -1000 to 1000", "0"),
    "keyboard": Key("a table", "[keyboard]"),
    "map": Key("a table of signs", '{ "&" = "1" }'),
    "click_taps": Key("true or false", "false"),
}


def read_club(path: Path) -> tuple[Club | None, tuple[Finding, ...]]:
    """Read the club's settings; without a file every setting has its default.

    The club is None if there is any finding. Never raises for what is in the file.
    """
    file = str(path)
    try:
        data = path.read_bytes()
        text = data[: LARGEST + 1].decode("utf-8-sig")
    except FileNotFoundError:
        return Club(), ()
    except UnicodeDecodeError:
        return None, (Finding(file, 0, None, "this file is not UTF-8", "Save it as UTF-8"),)
    except OSError:
        instead = "Check its name and who may read it"
        return None, (Finding(file, 0, None, "this file can't be read", instead),)
    if len(data) > LARGEST:
        instead = "Keep the club's settings under 64 kB"
        return None, (Finding(file, 0, None, "this file is too large", instead),)
    toml = read_toml(text)
    found = [Finding(file, fault.line, None, fault.what, fault.instead) for fault in toml.faults]
    try:
        club = Club.model_validate(toml.values)
    except ValidationError as refused:
        positions = Positions(toml.text)
        found += [_finding(error, file, positions) for error in refused.errors()]
    if found:
        return None, tuple(sorted(found, key=lambda finding: finding.line))
    return club, ()


def _finding(error: ErrorDetails, file: str, positions: Positions) -> Finding:
    path = error["loc"]
    key, table = str(path[-1]), str(path[0]) if len(path) > 1 else None
    line = positions.line(tuple(path))
    if error["type"] == "extra_forbidden":
        near = nearest(key, tuple(_keys_of(table)))
        instead = f'Write "{near}"' if near else "Take it out"
        return Finding(file, line, table, f'unknown key "{key}"', instead)
    known = KEYS.get(key, Key("text", '"1"'))
    example = known.example if known.example.startswith("[") else f"{key} = {known.example}"
    what = f"{key} = {show(error['input'])} is not {known.takes}"
    return Finding(file, line, table, what, f"Write {example}")


def _keys_of(table: str | None) -> tuple[str, ...]:
    if table is None:
        return tuple(Club.model_fields)
    model: Any = Club.model_fields[table].annotation
    return tuple(model.model_fields) if issubclass(model, BaseModel) else ()
