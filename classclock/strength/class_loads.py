"""What everybody in a class is to lift, segment by segment, from what each has lifted before."""

from collections.abc import Mapping, Sequence
from functools import lru_cache, partial

from msgspec import Struct, field

from classclock.plan.amounts import chosen_load
from classclock.plan.model import Plan
from classclock.strength.flags import NO_RECORD, flags
from classclock.strength.prescription import Prescription, prescription
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load
from classclock.units.names import name_key

_KEPT = 512
"""Fifty people in ten segments."""


class Handled(Struct, frozen=True):
    """What is known of one athlete in one lift."""

    maximum: Load
    """The recorded one-repetition maximum, lifted or estimated."""
    heaviest: Load


class LiftHistory(Struct, frozen=True):
    """What a club's athletes have lifted."""

    by_id: Mapping[str, Mapping[str, Handled]] = field(default_factory=dict)
    """By the athlete's id, then by the lift's name in small letters."""
    ids: Mapping[str, str] = field(default_factory=dict)
    """The id of whoever has a display name, by `name_key`; only where one alone has it."""

    def of(self, person_id: str, name: str, lift: str) -> Handled | None:
        """What this athlete has handled in a lift.

        Found by name in a rehearsal alone, whose people have their names for ids: two of one name
        may be two people.
        """
        named = person_id not in self.by_id and person_id == name
        known = self.ids.get(name_key(name), "") if named else person_id
        return self.by_id.get(known, {}).get(name_key(lift))


class LiftPlan(Struct, frozen=True):
    """What one athlete is to lift in one segment."""

    prescription: Prescription | None
    """None where the segment names a lift without sets: the loads are chosen as it goes."""
    heaviest: Load | None
    flags: tuple[str, ...]
    """What the coach should look at before the start, in words."""
    maximum: Load | None = None

    @property
    def loads(self) -> tuple[Load | None, ...]:
        return self.prescription.loads if self.prescription is not None else ()

    def flags_on(self, loads: Sequence[Load | None], today: Sequence[Load] = ()) -> tuple[str, ...]:
        """What is to be looked at if these are lifted, which were chosen together.

        `today` is what they have made in this class already.
        """
        handled = [load for load in (self.heaviest, *today) if load is not None]
        heaviest = max(handled, key=lambda load: load.kg, default=None)
        found = flags(loads, self.maximum, heaviest)
        return tuple(text for text in found if text != NO_RECORD)

    @property
    def to_choose(self) -> bool:
        """Whether a set is a share of a maximum that nobody knows."""
        return self.prescription is not None and any(
            each.percent is not None and each.target is None for each in self.prescription.sets
        )


class ClassLoads:
    """The plan's lifts for whoever takes part; what was asked for lately is kept."""

    def __init__(self, plan: Plan, equipment: Equipment, history: LiftHistory) -> None:
        self.equipment = equipment
        self._lift_plan = lru_cache(maxsize=_KEPT)(
            partial(_lift_plan, plan=plan, equipment=equipment, history=history)
        )

    def of(
        self, segment: int, person_id: str, name: str, load_name: str | None = None
    ) -> LiftPlan | None:
        """What an athlete is to lift in a segment; None where nothing is lifted in it.

        `load_name` is which of the plan's loads is theirs, where it offers several.
        """
        return self._lift_plan(segment, person_id, name, load_name)


def _lift_plan(
    index: int,
    person_id: str,
    name: str,
    load_name: str | None,
    *,
    plan: Plan,
    equipment: Equipment,
    history: LiftHistory,
) -> LiftPlan | None:
    segment = plan.segment[index] if index < len(plan.segment) else None
    if segment is None or segment.lift is None:  # one that was added since plans no load
        return None
    handled = history.of(person_id, name, segment.lift)
    maximum = handled.maximum if handled is not None else None
    heaviest = handled.heaviest if handled is not None else None
    planned = prescription(segment, maximum, equipment, load_name)
    loads = (chosen_load(segment.load, load_name),) if planned is None else planned.loads
    found = flags(loads, maximum, heaviest)
    return LiftPlan(planned, heaviest, found, maximum)
