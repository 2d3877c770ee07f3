"""How much of the processor a process asks for."""

import os
import sys

_LESS = 10


def give_way() -> None:
    """Let every other process go first."""
    if sys.platform != "win32":
        os.nice(_LESS)
