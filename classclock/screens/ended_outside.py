"""Ended from outside: the machine shuts down, or the terminal's window is closed."""

import asyncio
import signal
from collections.abc import Callable
from contextlib import suppress

ENDING = (signal.SIGTERM, signal.SIGHUP)


def when_ended(end: Callable[[int], None]) -> None:
    """Call `end` with the exit status when a signal asks this process to end.

    Without this the terminal would keep the other screen, and its mouse and cursor would be off.
    """
    loop = asyncio.get_running_loop()
    for number in ENDING:
        with suppress(NotImplementedError):  # a system without signals
            loop.add_signal_handler(number, end, 128 + number)
