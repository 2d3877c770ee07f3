"""What a new plan can be made from: a format, an earlier plan, or the result of a class."""

from contextlib import suppress
from pathlib import Path

from msgspec import Struct

from classclock.club import folder as club_folder
from classclock.club.plan_files import plan_path, plan_paths
from classclock.drafts.plan_being_written import PlanOnDisk, open_plan, plan_of_result
from classclock.plan.editing.parts import parts_of
from classclock.plan.editing.starts import copy_of, plan_of
from classclock.plan.model import FORMATS
from classclock.units.printable import printable

_MOST_RESULTS = 30


class PlanStart(Struct, frozen=True):
    """One way to begin; `source` is a format, a plan file or a results file."""

    title: str
    words: str
    source: str | Path


def starts_in(folder: Path) -> tuple[PlanStart, ...]:
    """Formats first, then the plans on offer, then the club's latest results."""
    formats = [
        PlanStart(name, f"begins with {form.about.begins_with}", name)
        for name, form in FORMATS.items()
    ]
    plans = [
        PlanStart(printable(path.stem), "a copy of this plan", path) for path in plan_paths(folder)
    ]
    found = sorted(club_folder.results(folder).glob("*.json"), reverse=True)[:_MOST_RESULTS]
    held = [PlanStart(printable(path.stem), "as this class was run", path) for path in found]
    return (*formats, *plans, *held)


def begin(source: str | Path) -> PlanOnDisk:
    """A plan with no file of its own yet. Raises ValueError in a sentence for the coach."""
    if source in FORMATS:
        return PlanOnDisk(plan_of(str(source)))
    path = Path(source)
    if path.suffix == ".json":
        return PlanOnDisk(copy_of(plan_of_result(path)))
    text = open_plan(path).text
    if len(parts_of(text)) == 1:
        raise ValueError("there is no [[segment]] in it, so it is no plan: name another file")
    return PlanOnDisk(copy_of(text))


def begin_named(named: str, folder: Path) -> PlanOnDisk:
    """As `begin`, for what a command line names: a results file's bare name is enough.

    Raises ValueError in a sentence for the coach.
    """
    if named in FORMATS:
        return begin(named)
    result = club_folder.results(folder) / f"{named.removesuffix('.json')}.json"
    with suppress(OSError):  # a name too long for any file
        if not Path(named).exists() and Path(named).name == named and result.exists():
            return begin(result)
    return begin(plan_path(named))
