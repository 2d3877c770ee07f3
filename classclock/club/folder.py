"""The club's folder: where everything of one club is kept, private to the account."""

import os
from pathlib import Path


def club_folder(named: str | None) -> Path:
    """The folder that was named, or the environment's, or the platform's user data folder."""
    if chosen := named or os.environ.get("CLASSCLOCK_CLUB"):
        return Path(chosen).expanduser()
    from platformdirs import user_data_path  # noqa: PLC0415  only where it is needed: 15 ms

    return user_data_path("classclock", appauthor=False)


def journals(folder: Path) -> Path:
    return folder / "journals"


def results(folder: Path) -> Path:
    return folder / "results"


def settings(folder: Path) -> Path:
    return folder / "club.toml"


def letters(folder: Path) -> Path:
    return folder / "letters.json"


def page_secret(folder: Path) -> Path:
    return folder / "page-secret"


def import_columns(folder: Path) -> Path:
    return folder / "import-columns.json"


def private(folder: Path) -> Path:
    """The folder, made if need be, for this account alone.

    Raises:
        OSError: it can't be made.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    return folder
