"""Getting what was written onto the disk itself, so that a power cut can't take it."""

import errno
import os
import sys
from pathlib import Path

from classclock.machine.opening import open_raw

if sys.platform == "darwin":
    import fcntl

    _REFUSED = (errno.ENOTSUP, errno.ENOTTY, errno.EINVAL)
    """What a file system says that can't do it, as network folders do."""

    def sync(file: int) -> None:
        """Wait until the disk has all that was written to this open file.

        macOS's fsync hands it to the disk, which may keep it in its own memory: only this order
        empties that too (macOS's manual page of fsync).

        Raises:
            OSError: the disk doesn't confirm it.
        """
        try:
            fcntl.fcntl(file, fcntl.F_FULLFSYNC)
        except OSError as error:
            if error.errno not in _REFUSED:
                raise
            os.fsync(file)

elif sys.platform == "win32":

    def sync(file: int) -> None:
        """Wait until the disk has all that was written to this open file.

        Raises:
            OSError: the disk doesn't confirm it.
        """
        os.fsync(file)

else:

    def sync(file: int) -> None:
        """Wait until the disk has all that was written to this open file.

        Raises:
            OSError: the disk doesn't confirm it.
        """
        os.fdatasync(file)


def sync_file(path: Path) -> None:
    """Wait until the disk has all that was written to a file that is closed.

    Raises:
        OSError: the disk doesn't confirm it.
    """
    file = open_raw(path, os.O_RDWR)
    try:
        sync(file)
    finally:
        os.close(file)


def sync_folder(folder: Path) -> None:
    """Wait until the disk has the names of this folder's files.

    Windows opens no folder, and writes its names down by itself.

    Raises:
        OSError: the disk doesn't confirm it.
    """
    if sys.platform == "win32":
        return
    opened = os.open(folder, os.O_RDONLY)
    try:
        if sys.platform == "darwin":
            sync(opened)
        else:
            os.fsync(opened)
    finally:
        os.close(opened)
