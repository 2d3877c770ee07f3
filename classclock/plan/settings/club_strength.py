"""What `club.toml` says about bars, plates and other weights."""

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, InstanceOf, ValidationInfo

from classclock.plan.value_types import OneLoad, Repeats, Strict, Text
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load, Unit, parse_load

# What a small club has. Common practice, no source.
SMALL_CLUB: dict[Unit, dict[str, Any]] = {
    "kg": {
        "bar": (
            {"name": "20 kg bar", "weight": "20 kg", "count": 6},
            {"name": "15 kg bar", "weight": "15 kg", "count": 4},
        ),
        "plates": {"20": 4, "15": 4, "10": 6, "5": 6, "2.5": 4, "1.25": 4},
        "dumbbells": ("5 kg", "7.5 kg", "10 kg", "12.5 kg", "15 kg", "17.5 kg", "20 kg", "22.5 kg"),
        "kettlebells": ("8 kg", "12 kg", "16 kg", "20 kg", "24 kg"),
    },
    "lb": {
        "bar": (
            {"name": "45 lb bar", "weight": "45 lb", "count": 6},
            {"name": "35 lb bar", "weight": "35 lb", "count": 4},
        ),
        "plates": {"45": 4, "35": 4, "25": 6, "10": 6, "5": 6, "2.5": 4},
        "dumbbells": ("10 lb", "15 lb", "20 lb", "25 lb", "30 lb", "35 lb", "40 lb", "50 lb"),
        "kettlebells": ("18 lb", "26 lb", "35 lb", "44 lb", "53 lb"),
    },
}


def _pairs(value: object, info: ValidationInfo) -> object:
    """Read `{ "20" = 2, "45 lb" = 1 }`: what a plate weighs, and how many pairs there are."""
    if not isinstance(value, dict):
        return value
    unit: Unit = (info.context or {}).get("unit", "kg")
    pairs: dict[Load, object] = {}
    for written, count in value.items():
        plate = written if isinstance(written, Load) else parse_load(str(written), unit)
        if plate in pairs:
            raise ValueError(f"the {plate} plates stand in it twice")
        pairs[plate] = count
    return pairs


HowMany = Annotated[int, Field(strict=True, ge=1, le=100)]


class BarSettings(Strict):
    name: Text
    weight: OneLoad
    count: Repeats = 1
    """How many the club has of it."""


class Plates(Strict):
    pairs: Annotated[dict[InstanceOf[Load], HowMany], BeforeValidator(_pairs), Field(max_length=40)]
    collar: OneLoad | None = None
    """What one collar weighs; left out, collars aren't counted."""


class StrengthSettings(Strict):
    """The part of the club's settings that says what there is to lift."""

    unit: Unit = "kg"
    """Of every load that is written without one."""
    dumbbells: tuple[OneLoad, ...] = ()
    kettlebells: tuple[OneLoad, ...] = ()
    # Where the file is silent on these two, `with_what_a_small_club_has` has filled them in.
    bar: Annotated[tuple[BarSettings, ...], Field(min_length=1)] = ()
    plates: Plates = Plates.model_construct(pairs={})

    @property
    def equipment(self) -> Equipment:
        """What there is to lift, as the loading of bars takes it."""
        return Equipment(
            bars=tuple(Bar(bar.name, bar.weight, bar.count) for bar in self.bar),
            pairs=tuple(self.plates.pairs.items()),
            collar=self.plates.collar,
            dumbbells=self.dumbbells,
            kettlebells=self.kettlebells,
        )


def with_what_a_small_club_has(values: dict[str, Any]) -> dict[str, Any]:
    """The club's settings, and where they leave strength out what a small club has, in its unit."""
    unit: Unit = "lb" if values.get("unit") == "lb" else "kg"
    usual = SMALL_CLUB[unit]
    given = values.get("plates", {})
    plates = given
    if isinstance(given, dict):
        plates = {"pairs": {f"{plate} {unit}": n for plate, n in usual["plates"].items()}, **given}
    return {**usual, **values, "plates": plates}
