"""The club that a command line speaks of."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.club.folder import club_folder, settings
from classclock.club.settings import read_club
from classclock.commands.headless import say_wrong
from classclock.plan.settings.club import Club

if TYPE_CHECKING:
    from classclock.plan.movements.library import Library


def asked_club(asked: argparse.Namespace) -> tuple[Path, Club | None]:
    """The club's folder and its settings; None where they are faulty, which has been said."""
    folder = club_folder(asked.club)
    club, findings = read_club(settings(folder))
    for finding in findings:
        say_wrong(str(finding))
    return folder, club


def known_library(folder: Path) -> "Library | None":
    """The movements that the club knows; None where its file is faulty, which has been said."""
    from classclock.club.movements import read_library  # noqa: PLC0415  two commands do

    library, findings = read_library(folder / "movements.toml")
    for finding in findings:
        say_wrong(str(finding))
    return library
