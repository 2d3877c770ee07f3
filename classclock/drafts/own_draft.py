"""A draft that only one editor writes: several may be open at once, on one plan too."""

import fcntl
import os
from contextlib import suppress
from pathlib import Path

from classclock.drafts.plan_being_written import DraftFile

_MOST = 20
"""So many editors of one plan, or of new ones, have a draft of their own each."""


class OwnDraft:
    """The draft of a plan as long as its editor is open."""

    def __init__(self, folder: Path, plan: Path | None) -> None:
        """As `DraftFile`; one that nobody else writes, a kept one before others."""
        self._lock: int | None = None
        self.alone = True
        """Whether no other editor has this plan open; new plans are never the same."""
        self.file = self._free(folder, plan)

    def release(self) -> None:
        """Leave it to the next editor. The end of the process, however it ends, does the same."""
        if self._lock is not None:
            with suppress(OSError):
                _lock_of(self.file).unlink(missing_ok=True)
            os.close(self._lock)
            self._lock = None

    def _free(self, folder: Path, plan: Path | None) -> DraftFile:
        drafts = [DraftFile(folder, plan, number) for number in range(1, _MOST + 1)]
        taken = [draft for draft in drafts if _is_taken(draft)]
        self.alone = plan is None or not taken
        free = (draft for draft in drafts if draft not in taken)
        for draft in sorted(free, key=lambda one: not one.path.exists()):
            try:
                self._lock = _locked(_lock_of(draft))
            except BlockingIOError:
                continue  # in this very moment
            except OSError:
                break  # the folder can't be written to, which is said at the first key
            return draft
        return drafts[0]


def _lock_of(draft: DraftFile) -> Path:
    return draft.path.with_suffix(".lock")


def _is_taken(draft: DraftFile) -> bool:
    """Whether another editor writes it now."""
    lock = _lock_of(draft)
    try:
        if lock.exists():
            os.close(_locked(lock))
    except BlockingIOError:
        return True
    except OSError:
        pass
    return False


def _locked(path: Path) -> int:
    """Raises BlockingIOError where another editor holds it, OSError where none can be there."""
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    while True:
        file = os.open(path, os.O_CREAT | os.O_RDWR, 0o600)
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            # Its holder may just have taken it away: then this one is nobody's any more.
            if path.exists() and os.path.samestat(path.stat(), os.fstat(file)):
                return file
        except OSError:
            os.close(file)
            raise
        os.close(file)
