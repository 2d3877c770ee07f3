"""A segment that no plan file holds, and a class that is made of one: as text, and read again.

A journal keeps such a segment as a plan of its own, so that it is read as every plan is.
"""

from classclock.plan.editing.writing import plan_text
from classclock.plan.model import Plan, Segment
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.units.loads import Unit

NAME, TITLE = "open-class", "Open class"


def open_class(segment: Segment) -> PlanFile:
    """A class without a plan, begun with this segment."""
    plan = Plan(title=TITLE, segment=(segment,))
    return PlanFile(NAME, plan_text(plan), plan)


def segment_text(segment: Segment) -> str:
    """The segment as a plan of its own."""
    return plan_text(Plan(title=segment.name, segment=(segment,)))


def segment_of(text: str, unit: Unit) -> Segment:
    """The one segment of such a plan.

    Raises:
        ValueError: it can't be read as a plan.
    """
    plan, findings = parse_plan(text, "a segment that was added", unit)
    if plan is None:
        raise ValueError(str(findings[0]))
    return plan.segment[0]
