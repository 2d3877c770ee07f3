"""The club that a command line speaks of."""

import argparse
from pathlib import Path

from classclock.club.folder import club_folder, settings
from classclock.club.settings import read_club
from classclock.commands.shared.exit_status import FindingsError
from classclock.plan.settings.club import Club


def asked_club(asked: argparse.Namespace) -> tuple[Path, Club]:
    """The club's folder and its settings.

    Raises:
        FindingsError: the settings are faulty.
    """
    folder = club_folder(asked.club)
    club, findings = read_club(settings(folder))
    if club is None:
        raise FindingsError(*findings)
    return folder, club
