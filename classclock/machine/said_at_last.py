"""What is printed when the screens are gone: a terminal that takes nothing goes without it."""

import os
import sys
from contextlib import suppress

from classclock.machine.opened_anew import has_room, opened_anew
from classclock.machine.standard_streams import say
from classclock.units.printable import escaped

_WITHIN = 0.5
"""Seconds."""


def say_at_last(*lines: str) -> None:
    """Print these as `say` does, but wait for no terminal: nobody reads one that stands still.

    Raises:
        OutputLostError: where standard output is no terminal, as `say` does.
    """
    descriptor = opened_anew(sys.stdout)
    if descriptor is None:
        say(*lines)
        return
    text = "".join(f"{escaped(line)}\n" for line in lines)
    left = text.encode(sys.stdout.encoding, "backslashreplace")
    with suppress(OSError):  # full after all, or the window is gone
        while left and has_room(descriptor, _WITHIN):
            left = left[os.write(descriptor, left) :]
    os.close(descriptor)
