"""The plan that a command line speaks of."""

from classclock.club.plan_files import plan_path, read_plan
from classclock.commands.shared.printing import say_wrong
from classclock.plan.plan_file import PlanFile
from classclock.units.loads import Unit


def asked_plan(named: str, unit: Unit) -> PlanFile | None:
    """The plan, read; every finding is said, and None comes back where it is faulty."""
    path = plan_path(named)
    plan, findings = read_plan(path, unit)
    for finding in findings:
        say_wrong(str(finding))
    return PlanFile(path.stem, path.read_text("utf-8-sig"), plan) if plan is not None else None
