"""A terminal opened once more, for writing that never waits: what of it is the system's."""

import os
import select
import sys
from contextlib import suppress
from typing import TextIO

CAN_OPEN_ANEW = sys.platform != "win32"


def opened_anew(file: TextIO | None) -> int | None:
    """A descriptor of the terminal behind this file, of its own; None where there can be none.

    Not to wait is a mark on the open file, which a shell shares: on its own one it would stay.
    """
    if sys.platform == "win32" or file is None:
        return None
    try:
        name = os.ttyname(file.fileno())
        return os.open(name, os.O_WRONLY | os.O_NOCTTY | os.O_NONBLOCK | os.O_CLOEXEC)
    except (OSError, ValueError):  # no terminal, somebody else's, or closed
        return None


def has_room(descriptor: int, within: float) -> bool:
    """Wait for room to write; whether there was some in so many seconds."""
    return bool(select.select((), (descriptor,), (), within)[1])


def forget_unread(descriptor: int) -> None:
    """Have the system throw away what was written to a terminal and waits to be read."""
    if sys.platform != "win32":
        import termios  # noqa: PLC0415  has no Windows

        with suppress(termios.error):
            termios.tcflush(descriptor, termios.TCOFLUSH)
