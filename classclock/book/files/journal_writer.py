"""Writing the journal: each event before it is shown, and synced to disk at once after.

A disk that refuses doesn't stop the class: all of the journal is kept in memory, a few hundred
kilobytes, and what isn't in the file is written when it can be, under another file if this one was
taken away. `trouble` says so in the coach's words.
"""

import contextlib
import os
import threading
from collections.abc import Callable
from pathlib import Path

from classclock.book.files.event_lines import event_line
from classclock.book.files.journal import Anchor
from classclock.machine.locking import HeldElsewhereError, Lock, is_held, lock_of, take
from classclock.machine.opening import open_raw
from classclock.machine.syncing import sync
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
        self._lock: Lock | None = None
        self._data = bytearray()
        """All that the journal holds, or is to hold."""
        self._written = 0
        """How many bytes of it are in the file."""
        self._ours = False
        """Whether the file of that name, if there is one, is this class's."""
        self._trouble: str | None = None
        self._sync_trouble: str | None = None
        self._unsure = False
        self._handing_over = threading.Lock()
        """Held while the file is let go, or taken up by who syncs it."""
        self._asked = threading.Event()
        self._closing = False
        self._syncer: threading.Thread | None = None

    # -- opening -----------------------------------------------------------------

    def open_new(self, anchor: Anchor) -> None:
        """Begin a new journal. A name that exists is not written over: it raises.

        A folder that can't be written to is trouble, not an error: the class runs on.

        Raises:
            FileExistsError: there is such a journal.
        """
        self._open()
        self._write(anchor.line())

    def open_again(self, whole: int, anchor: Anchor) -> None:
        """Go on in a journal that has `whole` bytes of whole lines.

        Raises:
            JournalInUseError: another process has it.
            OSError: it can't be read any more.
        """
        self._data += self.path.read_bytes()[:whole]
        self._written, self._ours = whole, True
        self._open()
        self._write(anchor.line())

    def move_to(self, path: Path) -> None:
        """Write the whole journal to another place, and go on there.

        Raises:
            OSError: the other place can't be written to either.
        """
        file = _create(path)
        try:
            lock = _take(path)
        except OSError:
            os.close(file)
            raise
        self._let_go()
        self._file, self._lock = file, lock
        self.path, self._ours, self._written = path, True, 0
        self._write(b"")

    def _open(self) -> None:
        try:
            if self._ours:
                self._file = open_raw(self.path, os.O_APPEND | os.O_RDWR)
                self._lock = _take(self.path)
                os.ftruncate(self._file, self._written)
            else:
                self._file = _create(self.path)
                self._ours, self._written = True, 0
                self._lock = _take(self.path)
        except JournalInUseError:
            self._let_go()
            raise
        except OSError as error:
            self._let_go()
            if isinstance(error, FileExistsError) and self.path.exists():
                raise
            self._trouble = f"nothing is being saved: {self.path.parent}: {_reason(error)}"

    def _let_go(self) -> None:
        with self._handing_over:
            if self._file is not None:
                os.close(self._file)
                self._file = None
            if self._lock is not None:
                self._lock.release()
                self._lock = None

    # -- writing -----------------------------------------------------------------

    @property
    def trouble(self) -> str | None:
        """What the coach must know about the disk, or None."""
        return self._trouble or self._sync_trouble

    @property
    def saved(self) -> bool:
        """Whether all that was recorded stands in the file."""
        return self._written == len(self._data)

    def append(self, event: Event) -> int:
        """Write one event and give its number. Never raises for the disk's sake."""
        number = self.number
        self.number += 1
        self._write(event_line(event, number, self._wall()))
        return number

    def try_again(self) -> bool:
        """See that the file is still there, and write what it lacks; whether it has all of it."""
        if self._file is None:
            try:
                self._open()
            except (FileExistsError, JournalInUseError):
                self._trouble = f"nothing is being saved: another file is called {self.path.name}"
        self._write(b"")
        return self.saved

    def _write(self, data: bytes) -> None:
        self._data += data
        if self._file is not None and not self._in_place():
            # Its folder was removed or renamed: what stands in it would be found by nobody.
            self._let_go()
            self._ours = False
            self.try_again()
            return
        if self._file is None or (self.saved and not self._sync_trouble):
            return
        try:
            while not self.saved:
                # A disk that is nearly full takes a part: only what it took is done with.
                self._written += os.write(self._file, self._data[self._written :])
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

    def _in_place(self) -> bool:
        """Whether the open file is the one that has the journal's name."""
        if self._file is None:
            return False
        try:
            return os.path.samestat(self.path.stat(), os.fstat(self._file))
        except OSError:
            return False

    # -- syncing, in a thread of its own -------------------------------------------

    def _sync_loop(self) -> None:
        while True:
            self._asked.wait()
            self._asked.clear()
            if self._closing:
                return
            with self._handing_over:
                if self._file is None:
                    continue
                file = os.dup(self._file)  # it may be let go while the disk takes its time
            watch = threading.Timer(SLOW_SYNC, self._say_slow)
            watch.daemon = True
            watch.start()
            try:
                if self._unsure:
                    self._write_over(file)
                sync(file)
                self._sync_trouble, self._unsure = None, False
            except OSError as error:
                self._unsure = True
                self._sync_trouble = f"the disk doesn't confirm what it saves: {_reason(error)}"
            finally:
                watch.cancel()
                os.close(file)

    def _write_over(self, file: int) -> None:
        """Write the same bytes once more: a sync that failed may have thrown some of them away.

        Linux drops what it couldn't write and calls the next sync a success.
        """
        again = open_raw(self.path, os.O_WRONLY)
        try:
            if os.path.samestat(os.fstat(again), os.fstat(file)):
                os.write(again, self._data[: self._written])
        finally:
            os.close(again)

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
                sync(self._file)
            self._let_go()


def _create(path: Path) -> int:
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    return open_raw(path, os.O_CREAT | os.O_EXCL | os.O_APPEND | os.O_RDWR)


def _take(path: Path) -> Lock:
    try:
        return take(lock_of(path))
    except HeldElsewhereError:
        raise JournalInUseError(f"this class is running in another window: {path.name}") from None


def _reason(error: OSError) -> str:
    return error.strerror or type(error).__name__


def in_use(path: Path) -> bool:
    """Whether a process holds this journal now. One that can't be opened is nobody's."""
    return is_held(lock_of(path))
