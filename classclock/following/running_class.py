"""Which class runs in a club's folder: its journal is held, there or where the class has moved."""

from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from classclock.book.files.held_file import in_use
from classclock.club import folder as club_folder
from classclock.following.view_file import SUFFIX, LaterViewError, read_view, view_path
from classclock.machine.whole_file import is_half

_JOURNAL, _LOCK = ".jsonl", ".lock"


class RunningClass(Struct, frozen=True):
    journal: Path
    view: Path
    """What it tells those that follow it: beside its journal, or where that began."""


def running_class(folder: Path, followed: Path | None = None) -> RunningClass | None:
    """The class that runs: the one with the journal `followed` as long as it does, else the newest.

    `folder` is the club's.
    """
    if followed is not None and in_use(followed):
        return RunningClass(followed, view_path(followed))
    begun = _begun(club_folder.journals(folder))
    running = [one for one in begun if in_use(one.journal)]
    return max(running, key=lambda one: _changed(one.journal), default=None)


def _begun(journals: Path) -> Iterator[RunningClass]:
    """Classes that may run: a lock lies beside them, or a view that leads to them."""
    for lock in journals.glob(f"*{_LOCK}"):
        journal = lock.with_suffix(_JOURNAL)
        yield RunningClass(journal, view_path(journal))
    for view in journals.glob(f"*{SUFFIX}"):
        try:
            told = None if is_half(view) else read_view(view)
        except LaterViewError:
            continue
        if told is not None:
            yield RunningClass(Path(told.journal), view)


def _changed(journal: Path) -> float:
    try:
        return journal.stat().st_mtime
    except OSError:
        return 0
