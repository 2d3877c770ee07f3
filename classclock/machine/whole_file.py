"""Writing a file so that there is never half of one, whatever happens meanwhile."""

import contextlib
import os
import tempfile
from pathlib import Path

from classclock.machine.replacing import put_in_place
from classclock.machine.syncing import sync, sync_folder

HALF = ".writing-"
"""How the name of a file begins as long as it is written; a power cut can leave one."""


def is_half(path: Path) -> bool:
    """Whether it is a file that is being written, or never was to its end."""
    return path.name.startswith(HALF)


def write_whole(path: Path, data: bytes) -> None:
    """Write it under another name, sync it, then rename it into place and sync the folder.

    Private to the account. Raises OSError, and then leaves what stood there before.
    """
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    file, name = tempfile.mkstemp(prefix=HALF, dir=path.parent)  # made with 0600
    try:
        with os.fdopen(file, "wb") as opened:
            opened.write(data)
            opened.flush()
            sync(opened.fileno())
        put_in_place(Path(name), path)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise
    sync_folder(path.parent)
