"""Whether a club remembers anything yet: its folder is left as it is where it doesn't."""

from pathlib import Path

from classclock.book.files.changes_file import NAME
from classclock.club.folder import results

MOST_CLASSES = 300
"""So many results files are read where somebody waits, the newest first: about a year's classes."""


def has_records(folder: Path) -> bool:
    """Whether a class was held or something was changed: there is something to ask the book."""
    return results(folder).is_dir() or (folder / NAME).exists()
