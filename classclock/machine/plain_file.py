"""Files that somebody named, or that lie in a folder: opened without waiting for ever."""

import os
import stat
import sys
from errno import EINVAL
from pathlib import Path
from typing import BinaryIO

from classclock.machine.opening import WITHOUT_WAITING, open_raw


class NoFileError(OSError):
    """It is a pipe, a socket or a device: reading it might wait for ever, or never end."""


def open_file(path: Path) -> BinaryIO:
    """Open a file for reading.

    Raises:
        NoFileError: what has that name is no file; neither is it a folder.
        OSError: it can't be read.
        ValueError: nothing can have that name.
    """
    opened = open(path, "rb", opener=_at_once)  # noqa: SIM115  a Path takes no opener; whoever asks closes
    if not stat.S_ISREG(os.fstat(opened.fileno()).st_mode):
        opened.close()
        raise NoFileError(EINVAL, "it is a pipe or a device, no file", str(path))
    return opened


def read_file(path: Path) -> bytes:
    """All of it.

    Raises: as `open_file` does.
    """
    with open_file(path) as opened:
        return opened.read()


def read_file_or_pipe(path: Path) -> bytes:
    """All of a file, or of a pipe that somebody has written into or is still writing into.

    Raises: as `open_file` does; nobody writes into the pipe.
    """
    if sys.platform == "win32":  # its pipes have no place in a folder, and all else is a file
        return read_file(path)
    with open(path, "rb", buffering=0, opener=_at_once) as opened:
        if not stat.S_ISFIFO(os.fstat(opened.fileno()).st_mode):
            return read_file(path)
        first = opened.read(1)  # None: somebody has it open, and has written nothing yet
        if first == b"":
            raise NoFileError(EINVAL, "it is a pipe into which nobody writes", str(path))
        os.set_blocking(opened.fileno(), True)
        return (first or b"") + opened.readall()


def _at_once(path: str, flags: int) -> int:
    """Not waiting until somebody writes into a pipe; to a file it means nothing."""
    return open_raw(path, flags | WITHOUT_WAITING)
