"""What a key of a plan or of a club's settings can hold, as types that pydantic checks.

What a mistake is answered with is in `reading/wording.py`.
"""

from typing import Annotated

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    Field,
    InstanceOf,
    Tag,
    ValidationInfo,
    WithJsonSchema,
)
from typing_extensions import TypeAliasType

from classclock.units.loads import Load, Unit, parse_load
from classclock.units.printable import can_be_shown
from classclock.units.times import Milliseconds, parse_time


def _length(value: object) -> object:
    if isinstance(value, Milliseconds):
        return value
    if isinstance(value, str):
        return parse_time(value)
    if isinstance(value, int) and not isinstance(value, bool):
        return Milliseconds(value * 1000)  # a file's whole number is seconds
    raise ValueError('not a time: write "mm:ss", as in "16:00"')


def _showable(text: str) -> str:
    if not text.strip() or not can_be_shown(text):
        raise ValueError("text with at least one letter and without control characters")
    return text.strip()


def _label(text: str) -> str:
    return _showable(text) if text else text


def _lines(value: object) -> object:
    return tuple(value.strip().splitlines()) if isinstance(value, str) else value


def _load(value: object, info: ValidationInfo) -> object:
    unit: Unit = (info.context or {}).get("unit", "kg")
    if isinstance(value, Load):
        return value
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise ValueError('not a load: write "22.5 kg" or "50 lb"')
    return parse_load(str(value), unit)


def _one_or_several(value: object) -> str:
    return "<several>" if isinstance(value, dict) else "<one>"


_TIME_SCHEMA = WithJsonSchema(
    {
        "type": ["string", "integer"],
        "description": 'a time: "mm:ss", "h:mm:ss", an ISO 8601 duration, or whole seconds',
    }
)
_DAY_MS = 24 * 60 * 60 * 1000
_Length = Annotated[InstanceOf[Milliseconds], BeforeValidator(_length)]
Length = Annotated[_Length, Field(gt=0, le=_DAY_MS), _TIME_SCHEMA]
"""A length of time: more than none, a day at most."""
CountIn = Annotated[_Length, Field(ge=3_000, le=600_000), _TIME_SCHEMA]
"""Its last three seconds are audible, so it has three."""
# A named type is built once; without a name it would be built again for each of its sixty uses.
Text = TypeAliasType(
    "Text",
    Annotated[str, AfterValidator(_showable), WithJsonSchema({"type": "string", "minLength": 1})],
)
Label = Annotated[str, AfterValidator(_label)]
"""Text that may be left empty."""
Lines = TypeAliasType(
    "Lines",
    Annotated[
        tuple[Text, ...],
        BeforeValidator(_lines),
        WithJsonSchema({"type": ["string", "array"], "items": {"type": "string"}}),
    ],
)
OneLoad = Annotated[
    InstanceOf[Load],
    BeforeValidator(_load),
    WithJsonSchema({"type": ["string", "number"], "description": '"22.5 kg", "50 lb"'}),
]
LoadChoice = TypeAliasType(
    "LoadChoice",
    Annotated[
        Annotated[OneLoad, Tag("<one>")]
        | Annotated[dict[Text, OneLoad], Field(min_length=1), Tag("<several>")],
        Discriminator(_one_or_several),
    ],
)
"""One load for all, or several by name (`heavier`, `lighter`); all are as written."""
Positive = TypeAliasType("Positive", Annotated[int, Field(strict=True, ge=1, le=100_000)])
Repeats = Annotated[int, Field(strict=True, ge=1, le=200)]
Flag = TypeAliasType("Flag", Annotated[bool, Field(strict=True)])


class Strict(BaseModel):
    """Frozen, and an unknown key is a mistake.

    What checks it is built when it first checks something: a part, within the whole and not by
    itself. Defaults are made by `model_construct`, unchecked, so that they build nothing.
    """

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)
