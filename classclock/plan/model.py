"""The plan: segments, their clocks and their stations, as pydantic models.

Times are whole milliseconds once read. What a file may say, and in which words a mistake is
answered, is in `reading.py` and `findings.py`.
"""

import datetime as dt
from typing import Annotated, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationInfo,
    WithJsonSchema,
)

from classclock.plan.times import parse_time
from classclock.strength.loads import Load, Unit, parse_load

Format = Literal["countdown", "interval", "rounds-in-time", "capped-for-time"]
Score = Literal["total", "lowest", "best", "load", "reps"]
Count = Literal["round", "station", "finish"]


def _time(value: object) -> object:
    if isinstance(value, str):
        return parse_time(value)
    if isinstance(value, int) and not isinstance(value, bool):
        return value * 1000
    raise ValueError(f'{value!r} is not a time: write "mm:ss", as in "16:00"')


def _lines(value: object) -> object:
    return (value,) if isinstance(value, str) else value


def _load(value: object, info: ValidationInfo) -> object:
    unit: Unit = (info.context or {}).get("unit", "kg")
    if isinstance(value, Load):
        return value
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise ValueError(f'{value!r} is not a load: write "22.5 kg" or "50 lb"')
    return parse_load(str(value), unit)


Ms = Annotated[
    int,
    BeforeValidator(_time),
    WithJsonSchema(
        {
            "type": ["string", "integer"],
            "description": 'a time: "mm:ss", "h:mm:ss", an ISO 8601 duration, or whole seconds',
        }
    ),
]
"""A length of time, in milliseconds."""
Lines = Annotated[
    tuple[str, ...],
    BeforeValidator(_lines),
    WithJsonSchema({"type": ["string", "array"], "items": {"type": "string"}}),
]
OneLoad = Annotated[
    Load,
    BeforeValidator(_load),
    WithJsonSchema({"type": ["string", "number"], "description": '"22.5 kg", "50 lb"'}),
]
LoadChoice = OneLoad | dict[str, OneLoad]
"""One load for all, or several by name (`heavier`, `lighter`); all are as written."""
Positive = Annotated[int, Field(ge=1, le=100_000)]


class Strict(BaseModel):
    """Frozen, and an unknown key is a mistake."""

    model_config = ConfigDict(extra="forbid", frozen=True)


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
    counts: Annotated[int, Field(ge=0, le=100_000)] | None = None


class Option(Amount):
    """An easier or safer version of a station; what it leaves out stays as the station has it."""

    name: str
    standard: str | None = None
    load: LoadChoice | None = None


class Station(Amount):
    """One movement in a round with its amount."""

    movement: str
    standard: str | None = None
    load: LoadChoice | None = None
    options: tuple[Option, ...] = ()


class Step(Strict):
    """One step of an interval segment: `work` or `rest`, exactly one of the two."""

    work: Ms | None = None
    rest: Ms | None = None
    label: str = ""
    stations: tuple[str, ...] = ()
    """The movements of the segment's stations that are done in this step; none means all."""


class LiftSet(Strict):
    """One set of a lift: a percentage of the athlete's maximum, or a load."""

    reps: Positive
    percent: Annotated[float, Field(gt=0, le=120)] | None = None
    load: LoadChoice | None = None


class Cues(Strict):
    """Which cues are heard and shown; each can be switched off."""

    count_in: bool = True
    step: bool = True
    halfway: bool = True
    last_minute: bool = True
    last_ten: bool = True
    end: bool = True


class SegmentBase(Strict):
    """What every format has."""

    name: str
    benchmark: str | None = None
    lines: Lines = ()
    notes: Lines = ()
    caution: Lines = ()
    count_in: Ms = 10_000
    cues: Cues = Cues()
    station: tuple[Station, ...] = ()
    teams: Annotated[int, Field(ge=2, le=12)] | None = None
    """How many people share a lane."""
    separate: bool = False
    """Rank as-written and modified lanes apart, as-written first."""
    lift: str | None = None
    sets: tuple[LiftSet, ...] = ()
    load: LoadChoice | None = None


class Countdown(SegmentBase):
    format: Literal["countdown"]
    time: Ms
    score: Literal["load", "reps"] | None = None


class Interval(SegmentBase):
    format: Literal["interval"]
    repeat: Annotated[int, Field(ge=1, le=200)]
    steps: Annotated[tuple[Step, ...], Field(min_length=1, max_length=60)]
    keep_last_rest: bool = False
    score: Literal["total", "lowest", "best", "load"] | None = None


class RoundsInTime(SegmentBase):
    format: Literal["rounds-in-time"]
    time: Ms
    direction: Literal["down", "up"] = "down"
    count: Literal["round", "station"] = "round"
    tie_break: bool = False
    """Equal totals: the earlier completion of the last full round first."""


class CappedForTime(SegmentBase):
    format: Literal["capped-for-time"]
    cap: Ms
    rounds: Annotated[int, Field(ge=1, le=200)] | None = None
    scheme: Annotated[tuple[Positive, ...], Field(min_length=1, max_length=60)] | None = None
    """The reps, round by round, of every station that names none."""
    count: Literal["round", "station", "finish"] = "round"


Segment = Annotated[
    Countdown | Interval | RoundsInTime | CappedForTime, Field(discriminator="format")
]


class Plan(Strict):
    """What one class will do."""

    title: str
    date: dt.date | None = None
    notes: Lines = ()
    segment: Annotated[tuple[Segment, ...], Field(min_length=1, max_length=60)]


def is_piece(segment: Segment) -> bool:
    """Whether the segment is scored."""
    if isinstance(segment, Countdown | Interval):
        return segment.score is not None
    return True
