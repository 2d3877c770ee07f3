"""Ended from outside: the machine shuts down, or the terminal's window is closed."""

import asyncio
import os
import signal
import threading
from collections.abc import Callable
from contextlib import suppress

ENDING = (signal.SIGTERM, signal.SIGHUP)
_PATIENCE = 3
"""Seconds: writing to a window that is gone can wait for ever, and would keep the journal."""


def when_ended(end: Callable[[int], None]) -> None:
    """Call `end` with the exit status when a signal asks this process to end.

    Without this the terminal would keep the other screen, and its mouse and cursor would be off.
    Every event stands in the journal before it is shown, so that an end by force loses nothing.
    """

    def ended(status: int) -> None:
        last = threading.Timer(_PATIENCE, os._exit, (status,))
        last.daemon = True
        last.start()
        end(status)

    loop = asyncio.get_running_loop()
    for number in ENDING:
        with suppress(NotImplementedError):  # a system without signals
            loop.add_signal_handler(number, ended, 128 + number)
