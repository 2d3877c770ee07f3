"""Ended from outside: the machine shuts down, or the terminal's window is closed."""

import asyncio
import os
import signal
import sys
import threading
from collections.abc import Callable
from contextlib import suppress

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

    _listen(asyncio.get_running_loop(), ended)


if sys.platform == "win32":
    import ctypes
    from ctypes import wintypes

    _CTRL_C = 0
    _STATUS = 128 + signal.SIGBREAK
    _GRANTED = 5
    """Seconds that Windows gives a process whose window was closed (HandlerRoutine)."""
    _Handler = ctypes.WINFUNCTYPE(wintypes.BOOL, wintypes.DWORD)
    _handlers: list[object] = []
    """Windows calls them as long as the process lives."""

    def _listen(loop: asyncio.AbstractEventLoop, ended: Callable[[int], None]) -> None:
        def asked(kind: int) -> bool:
            """In a thread that Windows makes: the process ends as soon as this returns."""
            if kind == _CTRL_C:
                return False  # a key like any other
            with suppress(RuntimeError):  # its app is over
                loop.call_soon_threadsafe(ended, _STATUS)
                threading.Event().wait(_GRANTED)
            return False

        _handlers.append(_Handler(asked))
        ctypes.WinDLL("kernel32").SetConsoleCtrlHandler(_handlers[-1], True)  # noqa: FBT003

else:

    def _listen(loop: asyncio.AbstractEventLoop, ended: Callable[[int], None]) -> None:
        for number in (signal.SIGTERM, signal.SIGHUP):
            loop.add_signal_handler(number, ended, 128 + number)
