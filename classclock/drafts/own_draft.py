"""A draft that only one editor writes: several may be open at once, on one plan too."""

from pathlib import Path

from classclock.drafts.plan_being_written import DraftFile
from classclock.machine.locking import HeldElsewhereError, Lock, is_held, lock_of, take

_MOST = 20
"""So many editors of one plan, or of new ones, have a draft of their own each."""


class OwnDraft:
    """The draft of a plan as long as its editor is open."""

    def __init__(self, folder: Path, plan: Path | None) -> None:
        """As `DraftFile`; one that nobody else writes, a kept one before others."""
        self._lock: Lock | None = None
        self.alone = True
        """Whether no other editor has this plan open; new plans are never the same."""
        self.file = self._free(folder, plan)

    def release(self) -> None:
        """Leave it to the next editor. The end of the process, however it ends, does the same."""
        if self._lock is not None:
            self._lock.release()
            self._lock = None

    def _free(self, folder: Path, plan: Path | None) -> DraftFile:
        drafts = [DraftFile(folder, plan, number) for number in range(1, _MOST + 1)]
        taken = [draft for draft in drafts if is_held(lock_of(draft.path))]
        self.alone = plan is None or not taken
        free = (draft for draft in drafts if draft not in taken)
        for draft in sorted(free, key=lambda one: not one.path.exists()):
            try:
                self._lock = take(lock_of(draft.path))
            except HeldElsewhereError:
                continue  # in this very moment
            except OSError:
                break  # the folder can't be written to, which is said at the first key
            return draft
        return drafts[0]
