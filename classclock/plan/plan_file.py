"""A plan file that was read."""

from msgspec import Struct

from classclock.plan.model import Plan


class PlanFile(Struct, frozen=True):
    name: str
    """The file's name without its ending."""
    text: str
    """As it stood, so that the class can be replayed whatever happens to the file."""
    plan: Plan
