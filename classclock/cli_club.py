"""The club that a command line speaks of."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.club_folder import club_folder, settings
from classclock.headless import say_wrong
from classclock.plan.club import Club
from classclock.plan.club_reading import read_club

if TYPE_CHECKING:
    from classclock.plan.movements import Library


def asked_club(asked: argparse.Namespace) -> tuple[Path, Club | None]:
    """The club's folder and its settings; None where they are faulty, which has been said."""
    folder = club_folder(asked.club)
    club, findings = read_club(settings(folder))
    for finding in findings:
        say_wrong(str(finding))
    return folder, club


def known_library(folder: Path) -> "Library | None":
    """The movements that the club knows; None where its file is faulty, which has been said."""
    from classclock.plan.movements_reading import read_library  # noqa: PLC0415  two commands do

    library, findings = read_library(folder / "movements.toml")
    for finding in findings:
        say_wrong(str(finding))
    return library
