"""One set of a lift."""

from typing import Annotated

from pydantic import Field

from classclock.plan.value_types import LoadChoice, Positive, Strict


class LiftSet(Strict):
    """One set of a lift: a percentage of the athlete's maximum, or a load."""

    reps: Positive
    """How many reps the set has."""
    percent: Annotated[float, Field(strict=True, gt=0, le=120, allow_inf_nan=False)] | None = None
    """How heavy it is, in percent of the athlete's own maximum; this or `load`."""
    load: LoadChoice | None = None
    """How heavy it is for everybody; this or `percent`."""
