"""Reading `movements.toml`: the club's movements, or everything that is wrong with them at once."""

import re
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple, get_args

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from classclock.plan.file_key import LINES, TEXT, YES, FileKey, nearest
from classclock.plan.findings import Fault, Finding
from classclock.plan.findings import Path as KeyPath
from classclock.plan.keys import assignment
from classclock.plan.movements.library import CountedIn, EasierMovement, Library, Movement, Pattern
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.meant import meant
from classclock.plan.reading.positions import Positions
from classclock.plan.reading.syntax import read_toml
from classclock.plan.reading.wording import show
from classclock.plan.value_types import Flag, Strict
from classclock.plan.written_values import tables
from classclock.units.printable import printable
from classclock.units.spelling import fold

_MOST_FINDINGS = 200

KEYS: dict[str, FileKey] = {
    "starter": FileKey(YES, "false"),
    "movement": FileKey("a list of movements", "[[movement]]"),
    "name": FileKey(TEXT, '"box step-over"'),
    "aliases": FileKey("a list of texts", '["step-over"]'),
    "pattern": FileKey(f"one of {', '.join(get_args(Pattern))}", '"squat"'),
    "counted_in": FileKey(f"a list of {', '.join(get_args(CountedIn))}", '["reps"]'),
    "equipment": FileKey("pieces and how many one person needs", "{ dumbbells = 2 }"),
    "standard": FileKey(TEXT, '"both feet on the box"'),
    "points": FileKey("a list of three texts at most", '["chest up", "whole foot on the box"]'),
    "options": FileKey(
        "a list of options, the easiest first", '["lower box", { name = "step-up" }]'
    ),
    "keep_load": FileKey(YES, "false"),
    "caution": FileKey(LINES, '["Step down, don\'t jump."]'),
}
_CHOICES: dict[str, tuple[str, ...]] = {
    "pattern": get_args(Pattern),
    "counted_in": get_args(CountedIn),
}


class MovementsFile(Strict):
    """What the file may say."""

    starter: Flag = True
    """Whether the movements that come with classclock stand behind the club's own."""
    movement: tuple[Movement, ...] = ()


def library_in(text: str, file: str) -> tuple[Library | None, tuple[Finding, ...]]:
    """The movements that the text of `movements.toml` tells of; `file` is named in the findings.

    The library is None if there is any finding.
    """
    read, findings = _parse(text, file)
    if read is None:
        return None, findings
    own = Library(read.movement)
    return own.extended(starter_library()) if read.starter else own, ()


def _parse(text: str, file: str) -> tuple[MovementsFile | None, tuple[Finding, ...]]:
    toml = read_toml(text, KEYS)
    faults = [*_named_twice(toml.values), *_each_others(toml.values)]
    read = None
    try:
        read = MovementsFile.model_validate(toml.values)
    except ValidationError as refused:
        errors = refused.errors(include_url=False)[:_MOST_FINDINGS]
        faults += [_fault(error) for error in errors if not _is_echo(error)]
    found = [Finding(file, fault.line, None, fault.what, fault.instead) for fault in toml.faults]
    if faults:
        positions = Positions(toml.text)
        found += [
            Finding(
                file,
                positions.line(fault.path),
                _name_at(toml.values, fault.path),
                fault.what,
                fault.instead,
            )
            for fault in faults
        ]
    if found:
        return None, tuple(sorted(found, key=lambda finding: finding.line)[:_MOST_FINDINGS])
    return read, ()


def _is_echo(error: ErrorDetails) -> bool:
    """Whether a list is only called too short because an item in it is wrong."""
    return error["type"] == "too_short" and bool(error["input"])


def _name_at(values: dict[str, Any], path: KeyPath) -> str | None:
    """What to call the movement that the path leads into."""
    movements = values.get("movement")
    if len(path) < 2 or not isinstance(movements, list) or not isinstance(path[1], int):
        return None
    movement = movements[path[1]]
    name = movement.get("name") if isinstance(movement, dict) else None
    return printable(name, 40) if isinstance(name, str) else f"movement {path[1] + 1}"


def _named_twice(values: dict[str, Any]) -> Iterator[Fault]:
    taken: set[str] = set()
    for number, movement in tables(values.get("movement")):
        aliases = movement.get("aliases")
        names = [("name", movement.get("name"))]
        names += [("aliases", alias) for alias in (aliases if isinstance(aliases, list) else ())]
        for key, name in names:
            if not isinstance(name, str):
                continue
            if fold(name) in taken:
                what = f"{show(name)} is the name of a movement above"
                yield Fault(("movement", number, key), what, "Take one of the two out")
            taken.add(fold(name))


def _each_others(values: dict[str, Any]) -> Iterator[Fault]:
    """Two movements can't each be the easier one: a pair is the fault of the later of the two."""
    own = [
        _Listed(number, _names(one), _options(one))
        for number, one in tables(values.get("movement"))
    ]
    taken = {name for one in own for name in one.names}
    starter = () if values.get("starter") is False else starter_library().movements
    behind = [
        _Listed(-1, {*map(fold, (one.name, *one.aliases))}, _by_fold(one.options))
        for one in starter
        if fold(one.name) not in taken
    ]
    by_name: dict[str, _Listed] = {}
    for one in (*behind, *own):
        for name, written in one.options.items():
            other = by_name.get(name)
            if other is not None and other is not one and one.names & other.options.keys():
                what = f"{show(written)} is an option of it, and it is an option of that one"
                instead = "An option is the easier one: take it out of the options of the easier"
                yield Fault(("movement", one.number, "options"), what, instead)
        by_name |= dict.fromkeys(one.names, one)


class _Listed(NamedTuple):
    """A movement, by folded names."""

    number: int
    names: set[str]
    options: dict[str, str]
    """As they are written."""


def _by_fold(options: Iterable[EasierMovement]) -> dict[str, str]:
    return {fold(one.name): one.name for one in options}


def _names(movement: dict[str, Any]) -> set[str]:
    aliases = movement.get("aliases")
    every = (movement.get("name"), *(aliases if isinstance(aliases, list) else ()))
    return {fold(name) for name in every if isinstance(name, str)}


def _options(movement: dict[str, Any]) -> dict[str, str]:
    """By folded name, each option's name as it is written."""
    options = movement.get("options")
    every = (
        one.get("name") if isinstance(one, dict) else one
        for one in (options if isinstance(options, list) else ())
    )
    return {fold(name): name for name in every if isinstance(name, str)}


def _fault(error: ErrorDetails) -> Fault:
    path = tuple(part for part in error["loc"] if part != "[key]")
    within = EasierMovement if "options" in path else Movement if len(path) > 1 else MovementsFile
    if error["type"] == "extra_forbidden":
        key = printable(str(path[-1]), 40)
        near = nearest(key, tuple(within.model_fields))
        what_goes = f"Take it out; what goes here: {', '.join(within.model_fields)}"
        return Fault(path, f'unknown key "{key}"', f'Write "{near}"' if near else what_goes)
    key = next((str(part) for part in reversed(path) if part in KEYS), "movement")
    known = KEYS[key]
    if error["type"] == "missing":
        return Fault(path, f'"{key}" is missing', f"Write {assignment(key, known.example)}")
    value = error["input"]
    if value in ("", [], {}):
        what = f'"{key}" is empty'
        return Fault(path, what, f"Write {assignment(key, known.example)}, or take it out")
    if error["type"] == "value_error" and key == "equipment":
        what = f"equipment: {error['ctx']['error']}"
        return Fault(path, what, f"Write {assignment(key, known.example)}")
    verb = "=" if path[-1] == key else "holds"
    what = f"{key} {verb} {show(value)}, which is not {known.takes}"
    guess = meant(key, known, value) if path[-1] == key else None
    instead = guess or assignment(key, _choice_meant(key, value) or known.example)
    return Fault(path, what, f"Write {instead}")


def _choice_meant(key: str, value: object) -> str | None:
    """Guess the choice that was meant, as TOML."""
    choices = _CHOICES.get(key)
    if choices is None or not isinstance(value, str):
        return None
    words = re.split(r"[\s,]+", value.lower())
    near = next((near for word in words if (near := nearest(word, choices))), None)
    if near is None:
        return None
    return f'["{near}"]' if key == "counted_in" else f'"{near}"'
