"""What the coach should look at before the start. A flag is a question, never a verdict."""

from collections.abc import Sequence
from decimal import Decimal

from classclock.units.loads import Load, shown

NO_RECORD = "no record: choose the load together"

_FAR_ABOVE = Decimal("1.1")


def flags(
    prescribed: Sequence[Load | None], maximum: Load | None, heaviest: Load | None
) -> tuple[str, ...]:
    """Flags on the loads that an athlete is to lift, in words.

    `maximum` is the recorded one-repetition maximum of the lift, `heaviest` the most that the
    athlete has handled in it; None is not known. A load that is None isn't planned yet: where none
    is, there is nothing to look at.
    """
    most = max((load for load in prescribed if load), key=lambda load: load.kg, default=None)
    if most is None:
        return ()
    if maximum is None and heaviest is None:
        return (NO_RECORD,)
    found: list[str] = []
    if maximum is not None and most.kg > maximum.kg:
        found.append(f"{shown(most)} is above the recorded maximum, {shown(maximum)}")
    if heaviest is not None and most.kg > heaviest.kg * _FAR_ABOVE:
        found.append(
            f"{shown(most)} is more than 10 % above the heaviest so far, {shown(heaviest)}"
        )
    return tuple(found)
