"""A station: one movement in a round with its amount, and its options."""

from typing import Annotated

from pydantic import BeforeValidator, Field

from classclock.plan.value_types import Flag, Lines, LoadChoice, Positive, Strict, Text


def _option(value: object) -> object:
    return {"name": value} if isinstance(value, str) else value


class Climb(Strict):
    """Reps that grow from round to round, as in 4, 8, 12."""

    first: Positive
    """The reps of the first round."""
    step: Positive
    """How many reps more each round has than the one before."""


class Amount(Strict):
    """How much of a movement: at most one of these is given; `counts` is what it is worth.

    Reps and calories count as they stand; metres and seconds count nothing unless `counts` says.
    """

    reps: Positive | None = None
    """How many reps; each counts one."""
    metres: Positive | None = None
    """How far, in metres; they count nothing unless `counts` says."""
    calories: Positive | None = None
    """How many calories on the machine's monitor; each counts one."""
    seconds: Positive | None = None
    """How long it is held, in seconds; they count nothing unless `counts` says."""
    climb: Climb | None = None
    """Reps that grow from round to round."""
    counts: Annotated[int, Field(strict=True, ge=0, le=100_000)] | None = None
    """How many reps it is worth, whatever its amount."""


class Option(Amount):
    """An easier or safer version of a station; what it leaves out stays as the station has it."""

    name: Text
    """What it is called: another movement, or how it is made easier."""
    standard: Text | None = None
    """What makes a rep of it count."""
    load: LoadChoice | None = None
    """Its own load, in place of the station's."""
    keep_load: Flag = True
    """Whether the station's load holds where it names none: not for something lighter or bare."""
    order: Positive | None = None
    """Its place from nearest to as written to farthest, 1 being nearest, where the options aren't
    written so; those that say none come after those that do. It changes no number."""
    from_library: Flag = False
    """Whether it was added to the plan's own from the movements: it is numbered after those."""


class Station(Amount):
    """One movement in a round with its amount."""

    movement: Text
    """The movement; one that the library knows gets its standard, cautions and easier options."""
    standard: Text | None = None
    """What makes a rep count."""
    points: Lines = ()
    """What to coach: what to watch and to say, in a few words each."""
    caution: Lines = ()
    """What is this movement's own to look out for."""
    load: LoadChoice | None = None
    """One load for all, or several by name from which people choose; all are as written."""
    options: tuple[Annotated[Option, BeforeValidator(_option)], ...] = ()
    """Easier or safer versions, the nearest to as written first, numbered as they stand; a name
    alone will do."""
