"""One writer of a club's book at a time, on this machine."""

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from classclock.club.folder import private


@contextmanager
def book_lock(folder: Path) -> Iterator[None]:
    """Wait for whoever writes in this folder's book or changes, then keep others out.

    Raises:
        OSError: the folder can't be written to.
    """
    file = os.open(private(folder) / "book.lock", os.O_CREAT | os.O_RDWR, 0o600)
    try:
        fcntl.flock(file, fcntl.LOCK_EX)
        yield
    finally:
        os.close(file)
