"""Writing the journal: each event before it is shown, and synced to disk at once after.

A disk that refuses doesn't stop the class: what couldn't be written is kept, and written first
when it can be. `trouble` says so in the coach's words.
"""

import contextlib
import fcntl
import os
import threading
from collections.abc import Callable
from pathlib import Path

from classclock.book.event_lines import event_line
from classclock.book.journal import Anchor
from classclock.tally.events import Event

SLOW_SYNC = 0.25
"""Seconds after which a sync that hasn't come back is said."""


class JournalInUseError(Exception):
    """Another classclock runs this class; `str` says so."""


class JournalWriter:
    """One journal, held by one process. Numbers the events as they come."""

    def __init__(self, path: Path, *, wall: Callable[[], str], number: int = 0) -> None:
        self.path = path
        self.number = number
        self._wall = wall
        self._file: int | None = None
        self._backlog = b""
        self._trouble: str | None = None
        self._sync_trouble: str | None = None
        self._asked = threading.Event()
        self._synced = threading.Event()
        self._synced.set()
        self._closing = False
        self._syncer: threading.Thread | None = None

    # -- opening -----------------------------------------------------------------

    def open_new(self, anchor: Anchor) -> None:
        """Begin a new journal. A name that exists is not written over: it raises.

        A folder that can't be written to is trouble, not an error: the class runs on.

        Raises:
            FileExistsError: there is such a journal.
        """
        self._open(os.O_CREAT | os.O_EXCL)
        self._write(anchor.line())

    def open_again(self, whole: int, anchor: Anchor) -> None:
        """Go on in a journal that has `whole` bytes of whole lines.

        Raises:
            JournalInUseError: another process has it.
        """
        self._open(0)
        if self._file is not None:
            os.ftruncate(self._file, whole)
        self._write(anchor.line())

    def move_to(self, path: Path) -> None:
        """Write the whole journal, as far as this process knows it, to another place.

        What was written so far is copied from the old place if that can still be read.

        Raises:
            OSError: the other place can't be written to either.
        """
        with contextlib.suppress(OSError):
            written = self.path.read_bytes()
            self._backlog = written + self._backlog
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        file = os.open(path, os.O_CREAT | os.O_EXCL | os.O_APPEND | os.O_RDWR, 0o600)
        if self._file is not None:
            os.close(self._file)
        self._file, self.path = file, path
        self._lock()
        self._write(b"")

    def _open(self, flags: int) -> None:
        try:
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            self._file = os.open(self.path, flags | os.O_APPEND | os.O_RDWR, 0o600)
        except OSError as error:
            if self.path.exists() and isinstance(error, FileExistsError):
                raise
            self._trouble = f"nothing is being saved: {self.path.parent}: {_reason(error)}"
            return
        self._lock()

    def _lock(self) -> None:
        if self._file is None:
            return
        try:
            fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            os.close(self._file)
            self._file = None
            raise JournalInUseError(
                f"this class is running in another window: {self.path.name}"
            ) from None

    # -- writing -----------------------------------------------------------------

    @property
    def trouble(self) -> str | None:
        """What the coach must know about the disk, or None."""
        return self._trouble or self._sync_trouble

    @property
    def saved(self) -> bool:
        """Whether all that was recorded stands in the file."""
        return not self._backlog

    def append(self, event: Event) -> int:
        """Write one event and give its number. Never raises for the disk's sake."""
        number = self.number
        self.number += 1
        self._write(event_line(event, number, self._wall()))
        return number

    def try_again(self) -> bool:
        """Write what couldn't be written before; whether all of it is now in the file."""
        if self._file is None:
            self._open(os.O_CREAT)
        self._write(b"")
        return self.saved

    def _write(self, data: bytes) -> None:
        self._backlog += data
        if self._file is None:
            return
        try:
            while self._backlog:
                # A disk that is nearly full takes a part: only what it took is done with.
                self._backlog = self._backlog[os.write(self._file, self._backlog) :]
        except OSError as error:
            self._trouble = (
                f"the class isn't being saved ({_reason(error)}): "
                "free some space, nothing is lost while this window stays open"
            )
            return
        self._trouble = None
        self._asked.set()
        if self._syncer is None:
            self._syncer = threading.Thread(target=self._sync_loop, daemon=True)
            self._syncer.start()

    # -- syncing, in a thread of its own -------------------------------------------

    def _sync_loop(self) -> None:
        while True:
            self._asked.wait()
            self._asked.clear()
            if self._closing or self._file is None:
                return
            watch = threading.Timer(SLOW_SYNC, self._say_slow)
            watch.daemon = True
            watch.start()
            try:
                os.fdatasync(self._file)
                self._sync_trouble = None
            except OSError as error:
                self._sync_trouble = f"the disk doesn't confirm what it saves: {_reason(error)}"
            finally:
                watch.cancel()

    def _say_slow(self) -> None:
        self._sync_trouble = "the disk is slow: a power cut now could lose the last taps"

    def close(self) -> None:
        """Sync what is written and let the journal go."""
        self._closing = True
        self._asked.set()
        if self._syncer is not None:
            self._syncer.join(timeout=2)
        if self._file is not None:
            with contextlib.suppress(OSError):
                os.fdatasync(self._file)
            os.close(self._file)
            self._file = None


def _reason(error: OSError) -> str:
    return error.strerror or type(error).__name__


def in_use(path: Path) -> bool:
    """Whether a process holds this journal now. One that can't be opened is nobody's."""
    try:
        file = os.open(path, os.O_RDONLY)
    except OSError:
        return False
    try:
        fcntl.flock(file, fcntl.LOCK_SH | fcntl.LOCK_NB)
    except OSError:
        return True
    else:
        return False
    finally:
        os.close(file)
