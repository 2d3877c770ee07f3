"""The movements that the club knows."""

from pathlib import Path

from classclock.club.movements import read_library
from classclock.commands.shared.exit_status import FindingsError
from classclock.plan.movements.library import Library


def known_movements(folder: Path) -> Library:
    """The club's movements and those that come with classclock.

    Raises:
        FindingsError: the club's file is faulty.
    """
    library, findings = read_library(folder / "movements.toml")
    if library is None:
        raise FindingsError(*findings)
    return library
