"""Putting a file in another's place, and taking one away, while somebody may be reading it.

Windows refuses both as long as anybody has the file open. Whoever reads a file of ours opens, reads
and closes it, so that it is soon free: we try again for two seconds.
"""

import sys
from collections.abc import Callable
from pathlib import Path

if sys.platform == "win32":
    import time

    _PAUSE_S, _TRIES = 0.02, 100

    def _persist(act: Callable[[], object]) -> None:
        for _ in range(_TRIES - 1):
            try:
                act()
            except PermissionError:
                time.sleep(_PAUSE_S)
            else:
                return
        act()

else:

    def _persist(act: Callable[[], object]) -> None:
        act()


def put_in_place(new: Path, path: Path) -> None:
    """Give the file `new` the name `path`; what had that name is gone, in one step.

    Raises:
        OSError: it can't be; then nothing has changed.
    """
    _persist(lambda: new.replace(path))


def take_away(path: Path) -> None:
    """Remove a file, if it is there.

    Raises:
        OSError: it can't be removed.
    """
    _persist(lambda: path.unlink(missing_ok=True))
