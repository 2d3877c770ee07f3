"""A plan file that was read."""

from dataclasses import dataclass

from classclock.plan.model import Plan


@dataclass(frozen=True, slots=True)
class PlanFile:
    name: str
    """The file's name without its ending."""
    text: str
    """As it stood, so that the class can be replayed whatever happens to the file."""
    plan: Plan
