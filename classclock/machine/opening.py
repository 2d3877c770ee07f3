"""Opening a file for its bytes, by the system's own number."""

import os
import sys
from pathlib import Path

if sys.platform == "win32":
    _AS_IT_IS = os.O_BINARY
    """Without it every line end that is written becomes two characters."""
    WITHOUT_WAITING = 0
    """For opening what may be a pipe that nobody writes into: no folder has one there."""
else:
    _AS_IT_IS = 0
    WITHOUT_WAITING = os.O_NONBLOCK


def open_raw(path: Path | str, flags: int) -> int:
    """As `os.open`, the bytes as they are; a new file is for this account alone."""
    return os.open(path, flags | _AS_IT_IS, 0o600)
