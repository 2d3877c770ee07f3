"""Writing a file so that there is never half of one, whatever happens meanwhile."""

import contextlib
import os
import tempfile
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Write it under another name, sync it, then rename it into place and sync the folder.

    Private to the account. Raises OSError, and then leaves what stood there before.
    """
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    file, name = tempfile.mkstemp(prefix=".writing-", dir=path.parent)  # made with 0600
    try:
        with os.fdopen(file, "wb") as opened:
            opened.write(data)
            opened.flush()
            os.fsync(opened.fileno())
        Path(name).replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
