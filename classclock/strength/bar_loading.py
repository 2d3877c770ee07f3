"""Which plates make a load on which bar; and where none do, what comes nearest."""

from collections.abc import Iterator
from decimal import Decimal

from msgspec import Struct

from classclock.strength.plates import parts_above, parts_below, plate_sums
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load, total_of


class Loading(Struct, frozen=True):
    """A loaded bar."""

    bar: Bar
    plates: tuple[Load, ...] = ()
    """Of one side, from the middle outwards: the largest first."""
    collar: Load | None = None
    """One collar of two; None where the bar wears none, or they aren't counted."""

    @property
    def total(self) -> Load:
        """Everything together, exact: in the one unit of it all, else in kilograms."""
        collars = () if self.collar is None else (self.collar, self.collar)
        return total_of((self.bar.weight, *self.plates, *self.plates, *collars), "kg")


class Lighter(Struct, frozen=True):
    """What there is that isn't above a load that is too light for the bar; the heaviest of each."""

    bar: Bar | None
    kettlebell: Load | None
    dumbbell: Load | None
    two_dumbbells: Load | None
    """What each of the two weighs."""


class BarAnswer(Struct, frozen=True):
    """How a load is made: exactly, or by its neighbours, or not with this bar at all."""

    target: Load
    exact: Loading | None = None
    below: Loading | None = None
    """The heaviest that can be made and isn't above the target."""
    above: Loading | None = None
    lighter: Lighter | None = None
    """Set where the target is below the bar: then the bar is never offered."""


def load_bar(target: Load, bar: Bar, equipment: Equipment) -> BarAnswer:
    """Load one bar: with the fewest plates, the larger first among equally few."""
    if target.kg < bar.weight.kg:
        return BarAnswer(target, lighter=lighter_than(target, equipment))
    below = max(_at_most(target, bar, equipment), key=_weighs)
    if below.total.kg == target.kg:
        return BarAnswer(target, below, below, below)
    return BarAnswer(target, None, below, _at_least(target, bar, equipment))


def load_any_bar(target: Load, equipment: Equipment) -> BarAnswer:
    """Load whichever bar comes nearest; the heavier bar among those that come equally near."""
    heaviest_first = sorted(equipment.bars, key=lambda bar: -bar.weight.kg)
    answers = [load_bar(target, bar, equipment) for bar in heaviest_first]
    exact = next((answer for answer in answers if answer.exact is not None), None)
    if exact is not None:
        return exact
    below = max((one.below for one in answers if one.below), key=_weighs, default=None)
    if below is None:
        return BarAnswer(target, lighter=lighter_than(target, equipment))
    above = min((one.above for one in answers if one.above), key=_weighs, default=None)
    return BarAnswer(target, None, below, above)


def lighter_than(target: Load, equipment: Equipment) -> Lighter:
    """What the club has for a load that is too light for the bar."""
    bars = (bar for bar in equipment.bars if bar.weight.kg <= target.kg)
    return Lighter(
        max(bars, key=lambda bar: bar.weight.kg, default=None),
        _heaviest(equipment.kettlebells, target, hands=1),
        _heaviest(equipment.dumbbells, target, hands=1),
        _heaviest(equipment.dumbbells, target, hands=2),
    )


def _at_most(target: Load, bar: Bar, equipment: Equipment) -> Iterator[Loading]:
    yield Loading(bar)
    bare = _bare(bar, equipment.collar)
    sums = plate_sums(equipment.pairs)
    weight = sums.at_most(parts_below(target) - bare)
    if weight is not None and (plates := sums.fewest(weight)) is not None:
        yield Loading(bar, plates, equipment.collar)


def _at_least(target: Load, bar: Bar, equipment: Equipment) -> Loading | None:
    sums = plate_sums(equipment.pairs)
    weight = sums.at_least(parts_above(target) - _bare(bar, equipment.collar))
    plates = sums.fewest(weight) if weight is not None else None
    return Loading(bar, plates, equipment.collar) if plates is not None else None


def _bare(bar: Bar, collar: Load | None) -> int:
    """The bar with its collars, without plates, in parts."""
    return parts_below(bar.weight) + (2 * parts_below(collar) if collar is not None else 0)


def _heaviest(loads: tuple[Load, ...], target: Load, *, hands: int) -> Load | None:
    within = (load for load in loads if hands * load.kg <= target.kg)
    return max(within, key=lambda load: load.kg, default=None)


def _weighs(loading: Loading) -> Decimal:
    return loading.total.kg
