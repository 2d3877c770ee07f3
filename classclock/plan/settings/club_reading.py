"""Reading `club.toml`: the club, or everything that is wrong with it at once."""

from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from classclock.plan.care import STOP
from classclock.plan.file_key import LOAD, TEXT, TIME, YES, FileKey, nearest
from classclock.plan.findings import Finding
from classclock.plan.reading.positions import Positions
from classclock.plan.reading.syntax import read_toml
from classclock.plan.settings.club import Club
from classclock.units.loads import Unit
from classclock.units.printable import printable

LARGEST = 64 * 1024
"""Bytes: settings are a page."""

KEYS: dict[str, FileKey] = {
    "name": FileKey(TEXT, '"Line 0 Depot"'),
    "unit": FileKey("one of kg, lb", '"kg"'),
    "class_length": FileKey(TIME, '"1:00:00"'),
    "theme": FileKey("one of dark, light", '"dark"'),
    "emergency": FileKey("a table", "[emergency]"),
    "address": FileKey(TEXT, '"0 Points Row, yard gate"'),
    "defibrillator": FileKey(TEXT, '"left of the front door"'),
    "first_aid": FileKey(TEXT, '"shelf behind the desk"'),
    "call": FileKey(TEXT, '"the number you call here"'),
    "care": FileKey("a table", "[care]"),
    "stop": FileKey("text of 80 letters at most", f'"{STOP}"'),
    "class": FileKey("a table", "[class]"),
    "ask_effort": FileKey(YES, "false"),
    "next_step_after": FileKey("a whole number from 0 to 50", "5"),
    "tv": FileKey("a table", "[tv]"),
    "inches": FileKey("a number above 5 and below 200", "55"),
    "metres": FileKey("a number above 0.5 and below 50", "10"),
    "mirrored": FileKey(YES, "true"),
    "letters": FileKey("one of auto, sextants, quadrants, halves", '"auto"'),
    "sound": FileKey("a table", "[sound]"),
    "volume": FileKey("a whole number from 0 to 100", "80"),
    "offset_ms": FileKey("a whole number from -1000 to 1000", "0"),
    "keyboard": FileKey("a table", "[keyboard]"),
    "map": FileKey("a table of signs", '{ "&" = "1" }'),
    "click_taps": FileKey(YES, "false"),
    "page": FileKey("a table", "[page]"),
    "page.address": FileKey("an address of this laptop, in numbers", '"0.0.0.0"'),
    "port": FileKey("a whole number from 1 to 65535", "8420"),
    "same_address": FileKey(YES, "false"),
    "dumbbells": FileKey("a list of loads", '["10 kg", "15 kg"]'),
    "kettlebells": FileKey("a list of loads", '["12 kg", "16 kg"]'),
    "bar": FileKey("a list of one bar or more", "[[bar]]"),
    "bar.name": FileKey(TEXT, '"20 kg bar"'),
    "weight": FileKey(LOAD, '"20 kg"'),
    "count": FileKey("a whole number from 1 to 200", "2"),
    "plates": FileKey("a table", "[plates]"),
    "pairs": FileKey("a table of plates and how many pairs there are", '{ "20" = 2, "10" = 3 }'),
    "collar": FileKey(LOAD, '"2.5 kg"'),
    "equipment": FileKey("pieces and how many there are, 0 to 200", "{ boxes = 4, rowers = 2 }"),
}


def club_in(text: str, file: str) -> tuple[Club | None, tuple[Finding, ...]]:
    """The club that the text of a settings file tells of; None if there is any finding.

    `file` is only named in the findings. Never raises for what is in the text.
    """
    toml = read_toml(text, KEYS)
    found = [Finding(file, fault.line, None, fault.what, fault.instead) for fault in toml.faults]
    try:
        # A bare load is in the club's unit.
        unit: Unit = "lb" if toml.values.get("unit") == "lb" else "kg"
        club = Club.model_validate(toml.values, context={"unit": unit})
    except ValidationError as refused:
        positions = Positions(toml.text)
        # A list whose items are at fault is reported as too short besides.
        errors = [one for one in refused.errors() if one["type"] != "too_short" or not one["input"]]
        found += [_finding(error, file, positions) for error in errors]
    if found:
        return None, tuple(sorted(found, key=lambda finding: finding.line))
    return club, ()


def _finding(error: ErrorDetails, file: str, positions: Positions) -> Finding:
    path = error["loc"]
    table = _table_at(path)
    place = str(path[0]) if table is not Club else None
    line = positions.line(tuple(path))
    if error["type"] == "extra_forbidden":
        key = printable(str(path[-1]), 40)
        fields = table.model_fields.items()
        near = nearest(key, tuple(field.alias or name for name, field in fields))
        instead = f'Write "{near}"' if near else "Take it out"
        return Finding(file, line, place, f'unknown key "{key}"', instead)
    key = next((str(part) for part in reversed(path) if part in KEYS), "name")
    if path[0] == "equipment":
        key = "equipment"  # a piece may bear the name of a setting
    known = KEYS.get(f"{place}.{key}", KEYS[key])
    is_table = known.example.strip("[]") == key
    example = known.example if is_table else f"{key} = {known.example}"
    if error["type"] == "missing":
        return Finding(file, line, place, f'"{key}" is missing', f"Write {example}")
    from classclock.plan.reading.meant import meant  # noqa: PLC0415  faulty settings only
    from classclock.plan.reading.wording import show, too_many  # noqa: PLC0415  as above

    if error["type"] == "too_long" and not isinstance(error["input"], str):
        return Finding(file, line, place, *too_many(key, error))

    verb = "=" if path[-1] == key else "holds"
    what = f"{key} {verb} {show(error['input'])}, which is not {known.takes}"
    if error["type"] == "value_error" and key in ("pairs", "equipment"):
        what = f"{key}: {error['ctx']['error']}"
    guess = meant(key, known, error["input"]) if path[-1] == key else None
    return Finding(file, line, place, what, f"Write {guess or example}")


def _table_at(path: tuple[int | str, ...]) -> type[BaseModel]:
    """The innermost table that the path leads through, or ends in."""
    table: type[BaseModel] = Club
    for part in path:
        if isinstance(part, str) and part in table.model_fields:
            annotation: Any = table.model_fields[part].annotation
            inner = (get_args(annotation) or (annotation,))[0]
            if isinstance(inner, type) and issubclass(inner, BaseModel):
                table = inner
    return table
