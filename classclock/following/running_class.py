"""Which class runs in a club's folder: its journal is held, there or where the class has moved."""

from collections.abc import Iterator
from pathlib import Path

from classclock.book.files.held_file import in_use
from classclock.club import folder as club_folder
from classclock.following.view_file import SUFFIX, LaterViewError, read_view

_JOURNAL, _LOCK = ".jsonl", ".lock"


def running_class(folder: Path, followed: Path | None = None) -> Path | None:
    """The journal of the class that runs: the one followed as long as it does, else the newest.

    `folder` is the club's.
    """
    if followed is not None and in_use(followed):
        return followed
    running = {path for path in _begun(club_folder.journals(folder)) if in_use(path)}
    return max(running, key=_changed, default=None)


def _begun(journals: Path) -> Iterator[Path]:
    """Classes that may run: a lock lies beside them, or a view that leads to them."""
    for lock in journals.glob(f"*{_LOCK}"):
        yield lock.with_suffix(_JOURNAL)
    for view in journals.glob(f"*{SUFFIX}"):
        try:
            told = read_view(view)
        except LaterViewError:
            continue
        if told is not None:
            yield Path(told.journal)


def _changed(journal: Path) -> float:
    try:
        return journal.stat().st_mtime
    except OSError:
        return 0
