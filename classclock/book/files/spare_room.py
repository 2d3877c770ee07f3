"""Room on the disk that is kept for a class: given up when the disk is full, so that it goes on."""

import contextlib
import os
import shutil
import threading
from pathlib import Path

from classclock.machine.opening import open_raw

ROOM = 1_048_576
"""Bytes: ten classes and their results, or more."""
NAME = "spare-room"
_LAST = 4096
"""The last bytes of it, for the words that something is lost."""
_PLENTY = 4 * ROOM
"""Bytes that are free where it is made: what the class itself writes comes first."""
_SAYS = b"classclock keeps this room for a class on a disk that is full. It may be deleted.\n"


class SpareRoom:
    """A file in a folder, one for all classes there. Nothing raises for the disk's sake."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / NAME
        self.short = False
        """Whether the disk was too full for it when it was to be made."""
        self.given_up = False
        """Whether the class has had it, and it isn't made anew yet."""
        self._one_at_a_time = threading.Lock()

    def keep(self) -> None:
        """See that it is there, where the disk has plenty."""
        with self._one_at_a_time, contextlib.suppress(OSError):
            self._keep()

    def _keep(self) -> None:
        self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        whole = self.path.exists() and self.path.stat().st_size >= ROOM
        self.short = not whole and shutil.disk_usage(self.path.parent).free < _PLENTY
        if whole or self.short:
            return
        # Nothing that a file system could leave out or press together.
        data = _SAYS + os.urandom(ROOM - len(_SAYS))
        file = open_raw(self.path, os.O_CREAT | os.O_TRUNC | os.O_WRONLY)
        with os.fdopen(file, "wb") as opened:
            opened.write(data)
        self.given_up = False

    def move_to(self, folder: Path) -> None:
        """From now on it is in another folder; it is made there by `keep`."""
        with self._one_at_a_time:
            self.path = folder / self.path.name
            self.short = self.given_up = False

    def give_up(self) -> bool:
        """Let the class have it, but for the last of it; whether there was any.

        It doesn't wait: while it is being made there is none yet.
        """
        if not self._one_at_a_time.acquire(blocking=False):
            return False
        try:
            if self.path.stat().st_size <= _LAST:
                return False
            os.truncate(self.path, _LAST)
        except OSError:
            return False
        else:
            self.given_up = True
            return True
        finally:
            self._one_at_a_time.release()

    def give_the_last(self) -> None:
        """Let the class have all of it."""
        with self._one_at_a_time, contextlib.suppress(OSError):
            self.path.unlink()
