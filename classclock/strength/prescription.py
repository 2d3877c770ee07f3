"""What one athlete is to lift in a segment: set by set, with plates and warm-ups."""

from decimal import Decimal

from msgspec import Struct

from classclock.plan.amounts import chosen_load
from classclock.plan.lift_set import LiftSet
from classclock.plan.model import Segment
from classclock.plan.value_types import LoadChoice
from classclock.strength.bar_loading import lighter_than
from classclock.strength.flags import NO_RECORD
from classclock.strength.maxima import percent_of
from classclock.strength.working_loads import WorkingLoad, bar_for, warm_ups, working_load
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load

_WITHOUT_A_BAR = ("dumbbell", "kettlebell", "goblet", "sandbag", "carry", "medicine ball", "plate")
"""Words in a lift's name that say it is done with something else than a bar."""


class PrescribedSet(Struct, frozen=True):
    """One set. `target` is None where it is a percentage of a maximum that nobody knows."""

    reps: int
    percent: Decimal | None
    target: Load | None
    working: WorkingLoad | None
    """How the target is loaded; None without a target, or for a planned load without a bar."""

    @property
    def load(self) -> Load | None:
        """What is lifted: what the bar weighs in all, or the target where no bar is used."""
        return self.working.load if self.working is not None else self.target


class Prescription(Struct, frozen=True):
    lift: str
    sets: tuple[PrescribedSet, ...]
    warm_ups: tuple[WorkingLoad, ...] = ()

    @property
    def loads(self) -> tuple[Load | None, ...]:
        """The load of each set, as a lane takes them."""
        return tuple(each.load for each in self.sets)

    @property
    def words(self) -> str:
        """What has to be said; empty where every set has its target."""
        return NO_RECORD if any(each.target is None for each in self.sets) else ""


def uses_a_bar(lift: str) -> bool:
    """Whether a lift of this name is done with a bar; a name that doesn't say so means it is."""
    return not any(word in lift.casefold() for word in _WITHOUT_A_BAR)


def prescription(
    segment: Segment,
    maximum: Load | None,
    equipment: Equipment,
    load_name: str | None = None,
    bar: Bar | None = None,
) -> Prescription | None:
    """What an athlete with this maximum is to lift; None where the segment names no lift or set.

    `load_name` is which of the plan's loads is theirs, where it offers several. `bar` is the bar
    for all sets; the heaviest that the lightest set allows unless it is given.
    """
    if segment.lift is None or not segment.sets:
        return None
    targets = [_target(each, segment.load, maximum, load_name) for each in segment.sets]
    known = [target for target in targets if target is not None]
    with_bar = uses_a_bar(segment.lift) and bool(known)
    chosen = (bar or bar_for(known, equipment)) if with_bar else None
    sets = tuple(
        PrescribedSet(
            each.reps,
            Decimal(str(each.percent)) if each.percent is not None else None,
            target,
            _working(each, target, equipment, chosen),
        )
        for each, target in zip(segment.sets, targets, strict=True)
    )
    first = next((each.working for each in sets if each.working is not None), None)
    return Prescription(segment.lift, sets, warm_ups(first, equipment) if first else ())


def _working(
    each: LiftSet, target: Load | None, equipment: Equipment, bar: Bar | None
) -> WorkingLoad | None:
    if target is None:
        return None
    if bar is not None:
        return working_load(target, equipment, bar)
    # A planned load without a bar stands as planned; a percentage has to be looked for.
    return WorkingLoad(target, None, lighter_than(target, equipment)) if each.percent else None


def _target(
    each: LiftSet, for_all: LoadChoice | None, maximum: Load | None, name: str | None
) -> Load | None:
    if each.percent is not None:
        return percent_of(maximum, Decimal(str(each.percent))) if maximum is not None else None
    return chosen_load(each.load or for_all, name)
