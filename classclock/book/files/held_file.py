"""A file that one process holds and adds to, and that may be taken away under its hands."""

import errno
import os
import threading
from pathlib import Path

from classclock.machine.locking import HeldElsewhereError, Lock, is_held, lock_of, take
from classclock.machine.opening import open_raw
from classclock.machine.replacing import put_in_place, take_away
from classclock.machine.syncing import sync, sync_folder
from classclock.machine.whole_file import HALF

_MORE = os.O_APPEND | os.O_RDWR


class JournalInUseError(Exception):
    """Another classclock runs this class; `str` says so."""


class HeldFile:
    """Open, and nobody else's until `close`. Every writing raises OSError if the disk refuses."""

    def __init__(self, path: Path, flags: int) -> None:
        """Hold the file, then open it, as `os.open` is told by `flags`.

        Raises:
            JournalInUseError: another process has it.
            OSError: it can't be opened.
        """
        self.path = path
        self._lock: Lock | None = _taken(path)
        self._file: int | None = None
        self._closing = threading.Lock()
        """Held while it is closed, or taken up by who syncs it."""
        self._name_kept = False
        """Whether the folder is known to have its name, whatever happens."""
        try:
            self._file = open_raw(path, flags)
        except OSError:
            self.close()
            raise

    @classmethod
    def made(cls, path: Path) -> "HeldFile":
        """A new one, private to the account; its folder is made if need be.

        Raises:
            FileExistsError: there is something of that name.
            OSError: it can't be made.
        """
        return cls(path, os.O_CREAT | os.O_EXCL | _MORE)

    @classmethod
    def again(cls, path: Path) -> "HeldFile":
        """One that is there already.

        Raises:
            JournalInUseError: another process has it.
            OSError: it can't be opened.
        """
        return cls(path, _MORE)

    @property
    def is_open(self) -> bool:
        return self._file is not None

    @property
    def in_place(self) -> bool:
        """Whether this is the file that its name leads to."""
        if self._file is None:
            return False
        try:
            return os.path.samestat(self.path.stat(), os.fstat(self._file))
        except OSError:
            return False

    def write(self, data: bytes) -> int:
        """Add as much of this as the disk takes at once; how many bytes that is."""
        return os.write(self._fileno(), data)

    def cut(self, length: int) -> None:
        os.ftruncate(self._fileno(), length)

    def sync(self) -> None:
        """Wait until what was written is on disk, and its name. It may be closed meanwhile."""
        with self._closing:
            file = os.dup(self._fileno())
        try:
            sync(file)
        finally:
            os.close(file)
        if not self._name_kept:
            sync_folder(self.path.parent)
            self._name_kept = True

    def replace(self, sound: Path) -> None:
        """Have the bytes of this other file, which goes, in place of its own.

        Raises:
            FileNotFoundError: what has its name now is another file, or none.
            OSError: it can't be; it may be closed then.
        """
        with self._closing:
            if not self.in_place or self._file is None:
                raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(self.path))
            os.close(self._file)  # Windows would leave it where it is
            self._file, self._name_kept = None, False
            try:
                put_in_place(sound, self.path)
            finally:
                self._file = open_raw(self.path, _MORE)

    def close(self) -> None:
        """Let it go."""
        with self._closing:
            if self._file is not None:
                os.close(self._file)
                self._file = None
            if self._lock is not None:
                self._lock.release()
                self._lock = None

    def _fileno(self) -> int:
        if self._file is None:
            raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(self.path))
        return self._file


def written_beside(path: Path, data: bytes) -> Path:
    """A sound file with these bytes, synced, in the same folder.

    A sync that failed may have thrown some bytes away: Linux drops what it couldn't write, and
    calls the next sync a success.

    Raises:
        OSError: it can't be written; then nothing of it is left.
    """
    beside = path.with_name(f"{HALF}{path.name}")
    file = open_raw(beside, os.O_CREAT | os.O_TRUNC | os.O_WRONLY)
    try:
        rest = data
        while rest:
            rest = rest[os.write(file, rest) :]
        sync(file)
    except OSError:
        os.close(file)
        take_away(beside)
        raise
    os.close(file)
    return beside


def held_again(path: Path) -> HeldFile | None:
    """Hold a file that is there; None where none is, or it can't be written to.

    Raises:
        JournalInUseError: another process has it.
    """
    try:
        return HeldFile.again(path) if path.is_file() else None
    except OSError:
        return None


def in_use(path: Path) -> bool:
    """Whether a process holds this file now. One that can't be opened is nobody's."""
    return is_held(lock_of(path))


def _taken(path: Path) -> Lock:
    try:
        return take(lock_of(path))
    except HeldElsewhereError:
        raise JournalInUseError(f"this class is running in another window: {path.name}") from None
