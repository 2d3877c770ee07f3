"""Whether a club remembers anything yet: its folder is left as it is where it doesn't."""

from pathlib import Path

from classclock.book.files.changes import NAME
from classclock.club.folder import results


def has_records(folder: Path) -> bool:
    """Whether a class was held or something was changed: there is something to ask the book."""
    return results(folder).is_dir() or (folder / NAME).exists()
