"""A plan's `cues`: a switch for every rule of the clock's cues."""

from typing import TYPE_CHECKING

from pydantic import create_model

from classclock.clock.cues import SWITCHES
from classclock.plan.value_types import Flag, Strict

if TYPE_CHECKING:
    Cues = Strict  # which fields it has is the clock's to say, and not to be seen here
else:
    Cues = create_model(
        "Cues",
        __base__=Strict,
        __doc__="Which cues are heard and shown; each can be switched off.",
        **dict.fromkeys(SWITCHES, (Flag, True)),
    )


def switched_off(cues: Cues) -> frozenset[str]:
    """Name the switches that the plan has turned off."""
    return frozenset(switch for switch in SWITCHES if not getattr(cues, switch))
