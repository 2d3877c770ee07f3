"""The plan: segments, their clocks and their stations, as pydantic models.

Times are whole milliseconds once read. What a file may say, and in which words a mistake is
answered, is in `reading.py` and `findings.py`.
"""

import datetime as dt
from typing import Annotated, Literal

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
from classclock.units.times import parse_time

Format = Literal["countdown", "interval", "rounds-in-time", "capped-for-time"]
Count = Literal["round", "station", "finish"]


def _time(value: object) -> object:
    if isinstance(value, str):
        return parse_time(value)
    if isinstance(value, int) and not isinstance(value, bool):
        return value * 1000
    raise ValueError('not a time: write "mm:ss", as in "16:00"')


def _showable(text: str) -> str:
    if not text.strip() or not can_be_shown(text):
        raise ValueError("text with at least one letter and without control characters")
    return text.strip()


def _label(text: str) -> str:
    return _showable(text) if text else text


def _lines(value: object) -> object:
    return tuple(value.strip().splitlines()) if isinstance(value, str) else value


def _option(value: object) -> object:
    return {"name": value} if isinstance(value, str) else value


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
_DAY = 24 * 60 * 60 * 1000
Ms = Annotated[int, BeforeValidator(_time), Field(gt=0, le=_DAY), _TIME_SCHEMA]
"""A length of time, in milliseconds: more than none, a day at most."""
CountIn = Annotated[int, BeforeValidator(_time), Field(ge=3_000, le=600_000), _TIME_SCHEMA]
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


class Climb(Strict):
    """Reps that grow from round to round, as in 4, 8, 12."""

    first: Positive
    step: Positive


class Amount(Strict):
    """How much of a movement: at most one of these is given; `counts` is what it is worth.

    Reps and calories count as they stand; metres and seconds count nothing unless `counts` says.
    """

    reps: Positive | None = None
    metres: Positive | None = None
    calories: Positive | None = None
    seconds: Positive | None = None
    climb: Climb | None = None
    counts: Annotated[int, Field(strict=True, ge=0, le=100_000)] | None = None


class Option(Amount):
    """An easier or safer version of a station; what it leaves out stays as the station has it."""

    name: Text
    standard: Text | None = None
    load: LoadChoice | None = None
    keep_load: Flag = True
    """Whether the station's load holds where it names none: not for something lighter or bare."""


class Station(Amount):
    """One movement in a round with its amount."""

    movement: Text
    standard: Text | None = None
    points: Lines = ()
    """What to coach: what to watch and to say, in a few words each."""
    caution: Lines = ()
    """What is this movement's own to look out for."""
    load: LoadChoice | None = None
    options: tuple[Annotated[Option, BeforeValidator(_option)], ...] = ()


class Step(Strict):
    """One step of an interval segment: `work` or `rest`, exactly one of the two."""

    work: Ms | None = None
    rest: Ms | None = None
    label: Label = ""
    stations: tuple[Text, ...] = ()
    """The movements of the segment's stations that are done in this step; none means all."""


class LiftSet(Strict):
    """One set of a lift: a percentage of the athlete's maximum, or a load."""

    reps: Positive
    percent: Annotated[float, Field(strict=True, gt=0, le=120, allow_inf_nan=False)] | None = None
    load: LoadChoice | None = None


class Cues(Strict):
    """Which cues are heard and shown; each can be switched off."""

    count_in: Flag = True
    step: Flag = True
    halfway: Flag = True
    last_minute: Flag = True
    last_ten: Flag = True
    end: Flag = True


class SegmentBase(Strict):
    """What every format has."""

    name: Text
    benchmark: Text | None = None
    lines: Lines = ()
    notes: Lines = ()
    caution: Lines = ()
    count_in: CountIn = 10_000
    cues: Cues = Cues.model_construct()
    station: tuple[Station, ...] = ()
    teams: Annotated[int, Field(strict=True, ge=2, le=12)] | None = None
    """How many people share a lane."""
    separate: Flag = False
    """Rank as-written and modified lanes apart, as-written first."""
    lift: Text | None = None
    standard: Text | None = None
    """What makes a rep of the lift count."""
    points: Lines = ()
    """What to coach of the lift."""
    sets: tuple[LiftSet, ...] = ()
    load: LoadChoice | None = None


class Countdown(SegmentBase):
    format: Literal["countdown"]
    time: Ms
    score: Literal["load", "reps"] | None = None


class Interval(SegmentBase):
    format: Literal["interval"]
    repeat: Repeats
    steps: Annotated[tuple[Step, ...], Field(min_length=1, max_length=60)]
    keep_last_rest: Flag = False
    score: Literal["total", "lowest", "best", "load"] | None = None


class RoundsInTime(SegmentBase):
    format: Literal["rounds-in-time"]
    time: Ms
    direction: Literal["down", "up"] = "down"
    count: Literal["round", "station"] = "round"
    tie_break: Flag = False
    """Equal totals: the earlier completion of the last full round first."""


class CappedForTime(SegmentBase):
    format: Literal["capped-for-time"]
    cap: Ms
    rounds: Repeats | None = None
    scheme: Annotated[tuple[Positive, ...], Field(min_length=1, max_length=60)] | None = None
    """The reps, round by round, of every station that names none."""
    count: Literal["round", "station", "finish"] = "round"


Segment = Annotated[
    Countdown | Interval | RoundsInTime | CappedForTime, Field(discriminator="format")
]


class Plan(Strict):
    """What one class will do."""

    title: Text
    date: Annotated[dt.date, Field(strict=True)] | None = None
    notes: Lines = ()
    segment: Annotated[tuple[Segment, ...], Field(min_length=1, max_length=60)]


def is_piece(segment: Segment) -> bool:
    """Whether the segment is scored."""
    if isinstance(segment, Countdown | Interval):
        return segment.score is not None
    return True
