"""A key's value as a coach types it and as TOML has it, there and back.

A short form that wouldn't come back the same isn't used: then the TOML itself is shown, and TOML
can always be typed.
"""

import datetime as dt
import re
import tomllib
from collections.abc import Callable
from typing import Any

from classclock.plan.editing.writing import quoted
from classclock.plan.file_key import Form
from classclock.plan.keys import KEYS
from classclock.units.times import show_time

_YES = {"yes": "true", "true": "true", "no": "false", "false": "false"}
_STEP = re.compile(r"(work|rest)\s+(\d[\d:.]*)(?:\s+(.+))?", re.IGNORECASE)
_SET = re.compile(r"(\d+)(?:\s*(?:at|@)\s*(.+))?", re.IGNORECASE)
_NAMED_LOAD = re.compile(r"(\D*?)\s*(\d+(?:[.,]\d+)?)\s*(kg|lb)?", re.IGNORECASE)
_CUE = re.compile(r"(\w+)\s+(on|off)", re.IGNORECASE)
_NUMBER = re.compile(r"(?:0|[1-9]\d{0,17})(?:\.\d{1,9})?")
_CLIMB = re.compile(r"(\d+)\s*,\s*(\d+)[\s,\d….]*")
_UNITS = {"m": "metres", "metres": "metres", "cal": "calories", "calories": "calories"}
_AMOUNT = re.compile(r"(\d+)\s*(m|metres|cal|calories|s|seconds|reps)?", re.IGNORECASE)
_MINUTES = re.compile(r"(\d{1,3}):(\d\d)")


def to_toml(key: str, typed: str) -> str:
    """The value in TOML, on one line; what fits nothing is written as text, and is then a finding.

    Never raises for what is typed.
    """
    typed = " ".join(typed.split())
    is_text = key in KEYS and KEYS[key].is_text
    if typed.startswith('"' if is_text else ('"', "[", "{")) and read_value(typed) is not None:
        return typed
    write = _WRITE[_form(key)]
    written = write(typed) if write else None
    if written is None and not is_text:
        written = _plain(typed)
    return written or quoted(typed)


def as_typed(key: str, source: str) -> str:
    """What to type for a value that is written so."""
    value = read_value(source)
    short = None if value is None else _short(_form(key), value)
    if short is not None and repr(read_value(to_toml(key, short))) == repr(value):
        return short
    return source if value is None or "\n" not in source else _toml(value)


def read_value(source: str) -> Any:
    """A value that is written in TOML; None where it can't be read."""
    try:
        return tomllib.loads(f"value = {source}\n")["value"]
    except (ValueError, RecursionError):
        return None


def amount_in(typed: str) -> tuple[str, str] | None:
    """The key and the value of an amount: `12`, `400 m`, `15 cal`, `0:30`, or `4, 8, 12`."""
    typed = typed.strip()
    if not typed:
        return None
    if climb := _CLIMB.fullmatch(typed):
        first, second = int(climb[1]), int(climb[2])
        return "climb", f"{{ first = {first}, step = {second - first} }}"
    if time := _MINUTES.fullmatch(typed):
        return "seconds", str(int(time[1]) * 60 + int(time[2]))
    if (plain := _AMOUNT.fullmatch(typed)) and len(plain[1]) <= 18:
        unit = (plain[2] or "").lower()
        key = _UNITS.get(unit, "seconds" if unit.startswith("s") else "reps")
        return key, str(int(plain[1]))
    return "reps", to_toml("reps", typed)


def amount_typed(key: str, source: str) -> str:
    """What to type for an amount that is written so."""
    value = read_value(source)
    if key == "climb" and isinstance(value, dict):
        first, step = value.get("first"), value.get("step")
        if type(first) is int and type(step) is int:
            return f"{first}, {first + step}, {first + 2 * step}"
    if type(value) is int:
        shown = {"metres": f"{value} m", "calories": f"{value} cal"}
        seconds = show_time(value * 1000) if 0 <= value < 6000 else f"{value} s"
        return {**shown, "seconds": seconds}.get(key, str(value))
    return as_typed(key, source)


def _form(key: str) -> Form:
    return KEYS[key].form if key in KEYS else "as in the file"


# -- typed to TOML ----------------------------------------------------------------


def _plain(typed: str) -> str | None:
    if _NUMBER.fullmatch(typed):
        return typed
    return _YES.get(typed.lower())


def _date(typed: str) -> str | None:
    try:
        return dt.date.fromisoformat(typed).isoformat()
    except ValueError:
        return None


def _lines(typed: str) -> str:
    return f"[{', '.join(quoted(one) for one in _listed(typed))}]"


def _listed(typed: str) -> list[str]:
    return [one.strip() for one in typed.split(";") if one.strip()]


def _each(pattern: re.Pattern[str], typed: str) -> list[re.Match[str]] | None:
    found = [pattern.fullmatch(one) for one in _listed(typed)]
    return [one for one in found if one] if found and all(found) else None


def _steps(typed: str) -> str | None:
    steps = _each(_STEP, typed)
    if steps is None:
        return None
    written = []
    for kind, time, label in (step.groups() for step in steps):
        said = f", label = {quoted(label)}" if label else ""
        written.append(f"{{ {kind.lower()} = {quoted(time)}{said} }}")
    return f"[{', '.join(written)}]"


def _sets(typed: str) -> str | None:
    sets = _each(_SET, typed)
    if sets is None or any(len(one[1]) > 9 for one in sets):
        return None
    return f"[{', '.join(_set(int(one[1]), one[2]) for one in sets)}]"


def _set(reps: int, of: str | None) -> str:
    if not of:
        return f"{{ reps = {reps} }}"
    percent = of.removesuffix("%").strip()
    if of.endswith("%") and _NUMBER.fullmatch(percent):
        return f"{{ reps = {reps}, percent = {percent} }}"
    return f"{{ reps = {reps}, load = {_load(of) or quoted(of)} }}"


def _load(typed: str) -> str | None:
    loads = _each(_NAMED_LOAD, typed)
    if loads is None:
        return None
    named = [(one[1].strip(" :="), _one_load(one[2], one[3])) for one in loads]
    if len(named) == 1 and not named[0][0]:
        return named[0][1]
    if not all(name for name, _ in named) or len(dict(named)) < len(named):
        return None
    return "{ " + ", ".join(f"{_key(name)} = {load}" for name, load in named) + " }"


def _one_load(number: str, unit: str | None) -> str:
    number = number.replace(",", ".")
    if unit:
        return quoted(f"{number} {unit.lower()}")
    return number if _NUMBER.fullmatch(number) else quoted(number)


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else quoted(name)


def _numbers(typed: str) -> str | None:
    numbers = re.split(r"[\s,;-]+", typed.strip("[] "))
    if not all(re.fullmatch(r"\d{1,9}", number) for number in numbers):
        return None
    return f"[{', '.join(str(int(number)) for number in numbers)}]"


def _cues(typed: str) -> str | None:
    cues = _each(_CUE, typed)
    if cues is None:
        return None
    names = {cue[1].lower(): str(cue[2].lower() == "on").lower() for cue in cues}
    return "{ " + ", ".join(f"{name} = {on}" for name, on in names.items()) + " }"


_WRITE: dict[Form, Callable[[str], str | None] | None] = {
    "as in the file": None,
    "lines": _lines,
    "date": _date,
    "steps": _steps,
    "sets": _sets,
    "load": _load,
    "numbers": _numbers,
    "cues": _cues,
}


# -- a value to what is typed -------------------------------------------------------


def _short(form: Form, value: Any) -> str | None:
    match value:
        case bool():
            return "yes" if value else "no"
        case str():
            return value
        case int() | float() | dt.date():
            return str(value)
        case list():
            return _short_list(form, value)
        case dict() if form == "cues":
            return "; ".join(f"{name} {'on' if on else 'off'}" for name, on in value.items())
        case dict():
            return "; ".join(f"{name} {load}" for name, load in value.items())
    return None


def _short_list(form: Form, values: list[Any]) -> str | None:
    if form == "numbers":
        return "-".join(str(one) for one in values)
    shown = [_short_item(form, one) for one in values]
    return "; ".join(str(one) for one in shown) if all(shown) else None


def _short_item(form: Form, value: Any) -> str | None:
    match value:
        case str():
            return value
        case {"work": time, "label": label}:
            return f"work {time} {label}"
        case {"rest": time, "label": label}:
            return f"rest {time} {label}"
        case {"work": time} if form == "steps":
            return f"work {time}"
        case {"rest": time} if form == "steps":
            return f"rest {time}"
        case {"reps": reps, "percent": percent}:
            return f"{reps} at {percent}%"
        case {"reps": reps, "load": load} if form == "sets":
            return f"{reps} at {load}"
        case {"reps": reps} if form == "sets":
            return str(reps)
    return None


def _toml(value: Any) -> str:
    """Any value of a plan on one line."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return quoted(value)
        case list():
            return f"[{', '.join(_toml(one) for one in value)}]"
        case dict():
            return "{ " + ", ".join(f"{_key(k)} = {_toml(one)}" for k, one in value.items()) + " }"
    return str(value)
