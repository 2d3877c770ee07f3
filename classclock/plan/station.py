"""A station: one movement in a round with its amount, and its options."""

from typing import Annotated

from pydantic import BeforeValidator, Field

from classclock.plan.value_types import Flag, Lines, LoadChoice, Positive, Strict, Text


def _option(value: object) -> object:
    return {"name": value} if isinstance(value, str) else value


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
