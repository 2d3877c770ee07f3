"""The club's movements as a class needs them: whatever the file holds, the class can run."""

from pathlib import Path
from typing import TYPE_CHECKING

from classclock.club.settings_file import settings_text
from classclock.plan.findings import Finding
from classclock.plan.model import Plan
from classclock.plan.plan_file import PlanFile

if TYPE_CHECKING:
    from classclock.plan.movements.library import Library


def club_library(folder: Path) -> "tuple[Library, str]":
    """The club's movements, those that come with classclock behind them; what is wrong, in words.

    From a faulty `movements.toml` nothing is taken.
    """
    from classclock.plan.movements.starter_library import starter_library  # noqa: PLC0415  a plan may name no movement

    library, findings = read_library(folder / "movements.toml")
    if library is not None:
        return library, ""
    first = findings[0]
    where = f"line {first.line}: " if first.line else ""
    return starter_library(), (
        f"movements.toml is left out ({where}{first.what}): "
        "classclock check and any plan says what to write"
    )


def read_library(path: Path) -> "tuple[Library | None, tuple[Finding, ...]]":
    """Read the club's movements; without a file they are those that come with classclock.

    The library is None if there is any finding. Never raises for what is in the file.
    """
    from classclock.plan.movements.library import LARGEST  # noqa: PLC0415  as above
    from classclock.plan.movements.starter_library import starter_library  # noqa: PLC0415  the same

    text = settings_text(path, LARGEST)
    if text is None:
        return starter_library(), ()
    if isinstance(text, Finding):
        return None, (text,)
    from classclock.plan.movements.movements_reading import library_in  # noqa: PLC0415  few clubs have one

    return library_in(text, str(path))


def filled_in(plan_file: PlanFile, folder: Path) -> tuple[PlanFile, str]:
    """The plan and its text with what the club knows of its movements; what is wrong, in words.

    The text is what a journal keeps: a class that is rejoined or replayed has the same options,
    however the club's movements have changed since.
    """
    if not _names_movements(plan_file.plan):
        return plan_file, ""
    from classclock.plan.movements.completing import complete_file  # noqa: PLC0415  see above

    library, trouble = club_library(folder)
    return complete_file(plan_file, library), trouble


def _names_movements(plan: Plan) -> bool:
    return any(segment.station or segment.lift for segment in plan.segment)
