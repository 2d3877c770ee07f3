"""Files that one holder has: nobody else gets them meanwhile, in this process or another.

A lock lies on a file of its own, beside what it guards, since on Windows nobody may read what is
locked. It ends with the process, however that ends.
"""

import errno
import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from classclock.machine.opening import open_raw

_TRIES, _PAUSE_S = 10, 0.01
"""Who only looks, on Windows, whether a file is held holds it for a moment: that is no holder."""
_ASKING_TRIES = 2 if sys.platform == "win32" else 1
"""Elsewhere those who ask share a lock, and wait for nobody."""
_NO_LOCKS = (errno.ENOLCK, errno.ENOSYS, errno.ENOTSUP)
"""The file system knows none: nobody can be kept out there, and a class runs on."""


class HeldElsewhereError(Exception):
    """Somebody else holds it."""


class Lock:
    """A file that is held until `release`."""

    def __init__(self, path: Path, file: int) -> None:
        self._path = path
        self._file = file

    def release(self) -> None:
        """Let it go, and take its file away. Never raises: its file may be gone."""
        if sys.platform == "win32":  # an open file can't be taken away there
            os.close(self._file)
            with suppress(OSError):
                self._path.unlink()
        else:  # while it is held: a file that somebody has just taken up stays
            with suppress(OSError):
                if _is_there(self._path, self._file):
                    self._path.unlink()
            os.close(self._file)


def lock_of(path: Path) -> Path:
    """The file beside that one on which its lock lies."""
    return path.with_suffix(".lock")


def take(path: Path) -> Lock:
    """Hold the file of that name, which is made if need be, its folder too.

    Raises:
        HeldElsewhereError: somebody else holds it.
        OSError: there can be no such file.
    """
    return Lock(path, _held(path, _TRIES))


@contextmanager
def held(path: Path, wait_s: float) -> Iterator[None]:
    """Wait until nobody else holds that file, then hold it; the file stays for the next.

    Raises:
        HeldElsewhereError: somebody else holds it still after so many seconds.
        OSError: there can be no such file.
    """
    file = _held(path, max(1, round(wait_s / _PAUSE_S)))
    try:
        yield
    finally:
        os.close(file)


def let_others_in() -> None:
    """Pause for as long as whoever waits needs to see that a lock is free."""
    time.sleep(3 * _PAUSE_S)


def is_held(path: Path) -> bool:
    """Whether somebody holds that file now. One that can't be opened is nobody's.

    Nobody waits for the answer: each wall that follows a class asks twice a second.
    """
    try:
        file = open_raw(path, os.O_RDONLY)
    except OSError:
        return False
    try:
        return not _lock(file, _ASKING_TRIES, shared=True)
    except OSError:
        return False
    finally:
        os.close(file)


def _held(path: Path, tries: int) -> int:
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    while True:
        file = open_raw(path, os.O_CREAT | os.O_RDWR)
        locked = there = False
        try:
            locked = _lock(file, tries)
            # Its holder may just have taken it away: then this one is nobody's any more.
            there = locked and _is_there(path, file)
        finally:
            if not there:
                os.close(file)
        if there:
            return file
        if not locked:
            raise HeldElsewhereError(str(path))


def _is_there(path: Path, file: int) -> bool:
    if sys.platform == "win32":  # what is open can't be taken away
        return True
    return path.exists() and os.path.samestat(path.stat(), os.fstat(file))


def _lock(file: int, tries: int, *, shared: bool = False) -> bool:
    """Whether it is locked now; `shared` with all who ask so."""
    try:
        for left in reversed(range(tries)):
            if _lock_now(file, shared=shared):
                return True
            if left:
                time.sleep(_PAUSE_S)
    except OSError as error:
        if error.errno not in _NO_LOCKS:
            raise
        return True
    return False


def _lock_now(file: int, *, shared: bool) -> bool:
    if sys.platform == "win32":
        from filelock import lock_descriptor  # noqa: PLC0415  Windows only

        return lock_descriptor(file, blocking=False)
    import fcntl  # noqa: PLC0415  not to be had on Windows

    try:
        fcntl.flock(file, (fcntl.LOCK_SH if shared else fcntl.LOCK_EX) | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):  # some file systems say the one, some the other
        return False
    return True
