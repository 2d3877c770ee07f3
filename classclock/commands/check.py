"""`check`: what is wrong with plans, how long they are, what is short, what can be read."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from msgspec import to_builtins

from classclock.club.plan_files import plan_path, read_plan
from classclock.commands.headless import FINDINGS, OK, print_json, say_wrong
from classclock.plan.checked import check_lines, check_values
from classclock.plan.model import Plan
from classclock.plan.movements.completing import complete
from classclock.plan.movements.library import Library
from classclock.planning.cap_fit import PieceFit
from classclock.planning.equipment_check import Room, equipment_lines, equipment_values
from classclock.report.fit_words import fit_line, fit_values
from classclock.units.loads import Unit


def check(
    named: Sequence[str],
    unit: Unit,
    library: Library,
    reading: Sequence[str],
    room: Room | None,
    *,
    as_json: bool,
    fits: Callable[[Plan], Sequence[PieceFit]] | None = None,
) -> int:
    """Findings of each plan, or its times, its work and what is short in the room.

    `fits` tells how its pieces would go for those who come. Last what can be read from the back.
    """
    status = OK
    checked: list[dict[str, Any]] = []
    for path in (path for name in named for path in _plans_at(name)):
        read, findings = read_plan(path, unit, library)
        plan = None if read is None else complete(read, library)
        if any(finding.level == "error" for finding in findings):
            status = FINDINGS  # a hint is said, but the plan can be run
        if as_json:
            values = check_values(plan) if plan is not None else {}
            if plan is not None and room is not None:
                values["equipment"] = equipment_values(plan, room)
            if plan is not None and fits is not None:
                values["cap_fit"] = [fit_values(fit) for fit in fits(plan)]
            checked.append(
                {"file": str(path), "findings": [to_builtins(one) for one in findings], **values}
            )
            continue
        for finding in findings:
            say_wrong(str(finding))
        if plan is not None:
            short = () if room is None else equipment_lines(plan, room)
            told = () if fits is None else [f"  {fit_line(fit)}" for fit in fits(plan)]
            print("\n".join((*check_lines(plan), *short, *told, "")))
    if as_json:
        print_json(checked)
    else:
        print("\n".join(reading))
    return status


def _plans_at(named: str) -> tuple[Path, ...]:
    path = plan_path(named)
    with suppress(OSError):
        if path.is_dir():
            return tuple(sorted(path.glob("*.toml")))
    return (path,)
