"""A target, brought to a load that the club can make and that is never above it."""

from collections.abc import Sequence
from decimal import Decimal

from msgspec import Struct

from classclock.strength.bar_loading import Lighter, Loading, load_any_bar, load_bar
from classclock.strength.maxima import percent_of
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load, in_unit

WARM_UP_PERCENTS = (Decimal(40), Decimal(60), Decimal(80))
"""Of the working load. Common practice, no source."""


class WorkingLoad(Struct, frozen=True):
    """What is lifted for a target: a loaded bar, or something lighter than any bar."""

    target: Load
    loading: Loading | None
    lighter: Lighter | None = None

    @property
    def load(self) -> Load | None:
        """What the bar weighs in all; None where no bar is light enough."""
        return self.loading.total if self.loading is not None else None

    @property
    def shortfall(self) -> Load | None:
        """By how much that is below the target, in the target's unit; None without a bar."""
        if self.load is None:
            return None
        made = in_unit(self.load, self.target.unit)
        return Load(max(Decimal(0), self.target.amount - made.amount), self.target.unit)


def working_load(target: Load, equipment: Equipment, bar: Bar | None = None) -> WorkingLoad:
    """The heaviest load not above the target, on this bar or on whichever comes nearest."""
    answer = load_bar(target, bar, equipment) if bar else load_any_bar(target, equipment)
    return WorkingLoad(target, answer.below, answer.lighter)


def bar_for(targets: Sequence[Load], equipment: Equipment) -> Bar:
    """One bar for all sets: the heaviest that the lightest set allows, or the lightest there is."""
    least = min((target.kg for target in targets), default=Decimal(0))
    light_enough = (bar for bar in equipment.bars if bar.weight.kg <= least)
    return max(light_enough, key=lambda bar: bar.weight.kg, default=equipment.lightest_bar)


def warm_ups(working: WorkingLoad, equipment: Equipment) -> tuple[WorkingLoad, ...]:
    """Steps up to a working load, each loadable and lighter than the next; none without a bar."""
    if working.loading is None or working.load is None:
        return ()
    steps: list[WorkingLoad] = []
    for percent in WARM_UP_PERCENTS:
        target = percent_of(working.load, percent)
        bar = working.loading.bar if target.kg >= working.loading.bar.weight.kg else None
        step = working_load(target, equipment, bar)
        before = steps[-1].load if steps else None
        if step.load is None or before is None or step.load.kg > before.kg:
            steps.append(step)
    return tuple(steps)
