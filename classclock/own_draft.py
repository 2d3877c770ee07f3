"""A draft that only one editor writes: several new plans may be written at once."""

import fcntl
import os
from pathlib import Path

from classclock.plan_being_written import DraftFile

_MOST = 20
"""So many new plans at once have a draft of their own each."""


class OwnDraft:
    """The draft of a plan as long as its editor is open."""

    def __init__(self, folder: Path, plan: Path | None) -> None:
        """As `DraftFile`; of a new plan one that nobody else writes, a kept one before others."""
        self._lock: int | None = None
        self.file = DraftFile(folder, plan) if plan is not None else self._of_a_new_plan(folder)

    def release(self) -> None:
        """Leave it to the next editor. The end of the process, however it ends, does the same."""
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None

    def _of_a_new_plan(self, folder: Path) -> DraftFile:
        drafts = [DraftFile(folder, None, number) for number in range(1, _MOST + 1)]
        for draft in sorted(drafts, key=lambda one: not one.path.exists()):
            try:
                self._lock = _locked(draft.path.with_suffix(".lock"))
            except BlockingIOError:
                continue
            except OSError:
                break  # the folder can't be written to, which is said at the first key
            return draft
        return drafts[0]


def _locked(path: Path) -> int:
    """Raises BlockingIOError where another editor holds it, OSError where none can be there."""
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    file = os.open(path, os.O_CREAT | os.O_RDWR, 0o600)
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(file)
        raise
    return file
