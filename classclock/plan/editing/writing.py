"""A plan written as TOML, so that reading it gives the same plan again."""

import datetime as dt
import json
from collections.abc import Iterator

from pydantic import BaseModel

from classclock.plan.model import Plan
from classclock.units.loads import Load
from classclock.units.times import Milliseconds, show_time


def plan_text(plan: Plan) -> str:
    """Write the plan; what is as it is by default isn't written."""
    lines = [*_assignments(plan)]
    for segment in plan.segment:
        lines += ["", "[[segment]]", *_assignments(segment)]
        for station in segment.station:
            lines += ["", "[[segment.station]]", *_assignments(station)]
    return "\n".join(lines) + "\n"


def _assignments(model: BaseModel) -> Iterator[str]:
    for key, value in _said(model):
        if key not in ("segment", "station"):
            yield f"{key} = {toml_value(key, value)}"


def _said(model: BaseModel) -> Iterator[tuple[str, object]]:
    for key, field in type(model).model_fields.items():
        value = getattr(model, key)
        if value is not None and (field.is_required() or value != field.default):
            yield key, value


def toml_value(key: str, value: object) -> str:
    """A value of a plan as TOML; `key` is only named.

    Raises:
        TypeError: a plan holds no such value.
    """
    match value:
        case bool():
            return "true" if value else "false"
        case Milliseconds():
            seconds = show_time(value)
            return f'"{seconds}.{value % 1000:03}"' if value % 1000 else f'"{seconds}"'
        case int() | float():
            return str(value)
        case dt.date():
            return value.isoformat()
        case str() | Load():
            return quoted(str(value))
        case tuple():
            return "[" + ", ".join(toml_value(key, one) for one in value) + "]"
        case dict():
            return _table((quoted(name), one) for name, one in value.items())
        case BaseModel():
            return _table(_said(value))
    raise TypeError(f"{key} holds {value!r}, which has no form in TOML")


def quoted(text: str) -> str:
    """The text as a string of TOML."""
    # A JSON string is one, but for the delete sign, which JSON leaves as it is.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _table(pairs: Iterator[tuple[str, object]]) -> str:
    return "{ " + ", ".join(f"{key} = {toml_value(key, one)}" for key, one in pairs) + " }"
