"""One writer of a club's book at a time, on this machine."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from classclock.club.folder import private
from classclock.machine.locking import held


@contextmanager
def book_lock(folder: Path) -> Iterator[None]:
    """Wait for whoever writes in this folder's book or changes, then keep others out.

    Raises:
        OSError: the folder can't be written to.
    """
    with held(private(folder) / "book.lock"):
        yield
