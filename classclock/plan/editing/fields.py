"""What a coach can set on each part of a plan, in the order in which a person writes it."""

from msgspec import Struct

from classclock.plan.amounts import AMOUNTS
from classclock.plan.editing.parts import Part
from classclock.plan.editing.values import amount_typed, as_typed
from classclock.plan.keys import KEYS
from classclock.plan.model import FORMATS


class Field(Struct, frozen=True):
    key: str
    typed: str
    """Its value as it would be typed; empty where the plan doesn't set it."""
    hint: str


_AMOUNT = "12, 400 m, 15 cal, 0:30, or from round to round 4, 8, 12"
_REST = (
    "lines",
    "caution",
    "benchmark",
    "lift",
    "sets",
    "load",
    "count_in",
    "teams",
    "separate",
    "notes",
    "cues",
)
_LATE = ("benchmark", "caution")
_PLAN = ("title", "date", "notes")
_STATION = ("movement", "amount", "load", "standard", "options", "counts")
ORDER: dict[str, tuple[str, ...]] = {
    "plan": _PLAN,
    "segment": (
        "name",
        "benchmark",
        "format",
        *dict.fromkeys(
            key for form in FORMATS.values() for key in form.about.fields if key != "score"
        ),
        *(key for key in _REST if key not in _LATE),
        "score",
        "caution",
    ),
    "station": ("movement", *AMOUNTS, "counts", "load", "standard", "options"),
}
"""The keys of each kind of part as they follow each other in a file."""


def fields_of(part: Part) -> tuple[Field, ...]:
    """What can be set on the part, and last whatever else stands in it."""
    keys = _keys(part)
    listed = {*keys, *(AMOUNTS if part.kind == "station" else ())}
    more = (pair.key for pair in part.pairs if pair.key not in listed)
    return tuple(Field(key, typed_at(part, key), _hint(key)) for key in (*keys, *more))


def _hint(key: str) -> str:
    if key == "amount":
        return _AMOUNT
    return KEYS[key].hint if key in KEYS else ""


def typed_at(part: Part, key: str) -> str:
    """The value of a key as it would be typed."""
    if key == "amount":
        given = [pair for pair in part.pairs if pair.key in AMOUNTS]
        return amount_typed(given[0].key, given[0].source) if given else ""
    pair = part.pair(key)
    return "" if pair is None else as_typed(key, pair.source)


def _keys(part: Part) -> tuple[str, ...]:
    if part.kind == "plan":
        return _PLAN
    if part.kind == "station":
        return _STATION
    form = FORMATS.get(typed_at(part, "format"))
    return ("name", "format", *(form.about.fields if form else ("time",)), *_REST)
