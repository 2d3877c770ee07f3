"""The page on the plan file: every key of every table, from the plan's own models."""

from collections.abc import Iterator
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from typing_extensions import TypeAliasType

from classclock.plan.editing.writing import toml_value
from classclock.plan.formats.cue_switches import Cues
from classclock.plan.formats.segment_base import SegmentBase
from classclock.plan.keys import CUE, KEYS, assignment
from classclock.plan.model import FORMATS, Plan
from docs.described import meaning
from docs.markdown import code, page, table

MUST = "must be there"
HEADS = ("key", "what it is", "takes", "unless written", "example")

INTRO = """\
# The plan file

A plan is a text file in TOML, `NAME.toml`. It has a title and its segments, one after the other;
each segment has a format, which says how its clock runs and what is scored. `classclock check`
names every mistake with its line and what to write instead, and `classclock edit` writes a plan by
keys. [The samples](../plans) are plans to start from."""

VALUES = """\
## How values are written

- A **time** is `"16:00"` (minutes:seconds), `"1:05:00"`, an ISO 8601 duration (`"PT16M"`), or whole
  seconds as a number without quotes.
- A **load** is `"22.5 kg"` or `"50 lb"`; a number alone is in the club's unit. Where people choose
  there are several, by name: `{ heavier = "22.5 kg", lighter = "15 kg" }`.
- **Text** stands in quotes. Where a list of texts goes, one text will do.
- **True** and **false** stand without quotes.

Every key that there is stands below; any other, or one in another place, is a mistake."""

FORMAT = (
    code("format"),
    "How its clock runs and what is scored. Each has keys of its own, below.",
    KEYS["format"].takes,
    MUST,
    code(assignment("format")),
)


def plan_page() -> str:
    seen: list[type[BaseModel]] = []
    parts = [
        INTRO,
        VALUES,
        _section("## The plan", Plan, seen),
        _section("## Every segment: `[[segment]]`", SegmentBase, seen, FORMAT),
    ]
    for name, form in FORMATS.items():
        heading = f'## A segment with `format = "{name}"`\n\n{_sentence(form.about.offered_as)}'
        own = set(form.model_fields) - set(SegmentBase.model_fields)
        parts.append(_section(heading, form, seen, keys=own - {"format"}))
    for key, within in _within(seen):
        parts.append(_section(f"## Within `{key}`", within, seen))
    return page(*parts)


_FORMATS = (
    "The key `format` says which of the formats below it is; each has keys of its own besides."
)


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."


def _section(
    heading: str,
    model: type[BaseModel],
    seen: list[type[BaseModel]],
    *first: tuple[str, ...],
    keys: set[str] | None = None,
) -> str:
    """A table's keys, all or these, after the rows that come first; from now on it was seen."""
    seen.append(model)
    rows = (
        _row(model, key, field)
        for key, field in model.model_fields.items()
        if keys is None or key in keys
    )
    return f"{heading}\n\n{table(HEADS, (*first, *rows))}"


def _row(model: type[BaseModel], key: str, field: FieldInfo) -> tuple[str, ...]:
    known = CUE if model is Cues else KEYS[key]
    words = _words(field.annotation)
    takes = f"one of {', '.join(words)}" if words else known.takes
    example = toml_value(key, words[-1]) if words else known.example
    return (
        code(key),
        meaning(model, key),
        takes,
        _default(key, field),
        code(assignment(key, example)),
    )


def _default(key: str, field: FieldInfo) -> str:
    if field.is_required():
        return MUST
    value = field.default
    if value is None or value in ((), ""):
        return "none"
    if isinstance(value, Cues):
        return "all are heard"
    return code(toml_value(key, value))


def _words(hint: Any) -> tuple[str, ...]:
    """The words among which a key chooses."""
    if get_origin(hint) is Literal:
        return tuple(str(word) for word in get_args(hint))
    return next((words for part in _parts(hint) if (words := _words(part))), ())


def _parts(hint: Any) -> tuple[Any, ...]:
    """What a type is put together of."""
    if isinstance(hint, TypeAliasType):
        return (hint.__value__,)
    origin = get_origin(hint)
    if origin is Annotated:
        return get_args(hint)[:1]
    return get_args(hint) if origin in (Union, UnionType, tuple, list) else ()


def _within(seen: list[type[BaseModel]]) -> Iterator[tuple[str, type[BaseModel]]]:
    """The tables that stand within keys of those seen, and the keys; each once."""
    for model in seen:  # it grows while they are written
        for key, field in model.model_fields.items():
            for inner in _tables(field.annotation):
                if inner not in seen and inner not in FORMATS.values():
                    yield key, inner


def _tables(hint: Any) -> tuple[type[BaseModel], ...]:
    if isinstance(hint, type) and issubclass(hint, BaseModel):
        return (hint,)
    return tuple(found for part in _parts(hint) for found in _tables(part))
