"""Writing files so that there is never half of one, whatever happens meanwhile."""

import contextlib
import os
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from classclock.machine.replacing import put_in_place
from classclock.machine.syncing import sync, sync_file, sync_folder

_SYNCED_AT_ONCE = 8
HALF = ".writing-"
"""How the name of a file begins as long as it is written; a power cut can leave one."""


def is_half(path: Path) -> bool:
    """Whether it is a file that is being written, or never was to its end."""
    return path.name.startswith(HALF)


def write_whole(path: Path, data: bytes) -> None:
    """Write it under another name, sync it, then rename it into place and sync the folder.

    Private to the account. Raises OSError, and then leaves what stood there before.
    """
    with written_together([path]) as together:
        together.files[0].write(data)
        together.sync()
        together.put_in_place()


class FilesTogether:
    """Files being written, under other names in the same folders; private to the account."""

    def __init__(self) -> None:
        self.files: list[BinaryIO] = []
        self._written: list[Path] = []
        """Those that are closed, and not on the disk yet."""
        self._names: list[tuple[Path, Path]] = []
        """Of each how it is called now, and how it will be."""
        self._made: list[Path] = []
        """Folders that weren't there, those within others first."""

    def add(self, path: Path) -> BinaryIO:
        """One more. Raises OSError: it can't be made."""
        above = (path.parent, *path.parent.parents)
        self._made += [folder for folder in above if not folder.exists()]
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        number, name = tempfile.mkstemp(prefix=HALF, dir=path.parent)  # made with 0600
        self._names.append((Path(name), path))
        self.files.append(os.fdopen(number, "wb"))
        return self.files[-1]

    def write(self, path: Path, data: bytes) -> None:
        """One more, whole; `sync` sees it onto the disk with the others. Raises OSError."""
        with self.add(path) as file:
            file.write(data)
        self.files.remove(file)
        self._written.append(self._names[-1][0])

    def sync(self) -> None:
        """See all that was written onto the disk. Raises OSError.

        All are written before the first is waited for, and then several at once: a disk that gets
        thousands together, a person's years of classes, has them in a tenth of the time.
        """
        while self.files:
            _close(self.files.pop())
        if self._written:
            from concurrent.futures import ThreadPoolExecutor  # noqa: PLC0415  15 ms, for many only

            with ThreadPoolExecutor(_SYNCED_AT_ONCE) as threads:
                for _ in threads.map(sync_file, self._written):
                    pass  # raises what one of them raised
            self._written.clear()

    def put_in_place(self) -> None:
        """Give them their names, once they are synced. Raises OSError."""
        for new, path in self._names:
            put_in_place(new, path)
        for folder in dict.fromkeys(path.parent for _, path in self._names):
            sync_folder(folder)

    def take_away(self) -> None:
        """Leave nothing of what hasn't got its name."""
        for file in self.files:
            with contextlib.suppress(OSError):
                file.close()
        for new, _ in self._names:
            with contextlib.suppress(OSError):
                new.unlink(missing_ok=True)
        for folder in self._made:
            with contextlib.suppress(OSError):  # it holds something now
                folder.rmdir()


def _close(file: BinaryIO) -> None:
    with file:
        file.flush()
        sync(file.fileno())


@contextmanager
def written_together(paths: Sequence[Path] = ()) -> Iterator[FilesTogether]:
    """Write into `files`, then `sync` and `put_in_place`; without those nothing has changed.

    Raises:
        OSError: one can't be made.
    """
    together = FilesTogether()
    try:
        for path in paths:
            together.add(path)
        yield together
    finally:
        together.take_away()
