"""Writing to a terminal for which nobody waits, not even when it stands still or is left.

What it takes at once is written at once; the rest whenever the event loop finds room. Where that
isn't enough, painting is left out, and all is painted anew once the terminal has caught up.
"""

import asyncio
import os
from collections.abc import Callable
from contextlib import suppress

from classclock.machine.backlog import Backlog
from classclock.machine.opened_anew import forget_unread, has_room

_STANDS_STILL = 5
"""Seconds without room: at 960 bytes a second there is some every four."""
_AT_ONCE = (20, 0.001)
"""How often to wait for a terminal that reads, and how many seconds each time.

A whole wall takes a quick terminal some milliseconds: in turns of the event loop it would take
until whatever goes on after the first paint is done.
"""
_AT_LAST = (2, 0.25)
"""The same for what puts the terminal right as it is left."""
_BROKEN_OFF = b"\x18\x1b\\"
"""Ends a sequence or a text whose end was thrown away."""


class TerminalOutput:
    """Belongs to one thread, that of the event loop."""

    def __init__(
        self, descriptor: int, loop: asyncio.AbstractEventLoop, paint_anew: Callable[[], None]
    ) -> None:
        """`descriptor` doesn't wait and is closed with this; `paint_anew` has all painted again."""
        self._descriptor = descriptor
        self._loop = loop
        self._paint_anew = paint_anew
        self._backlog = Backlog()
        self._still: asyncio.TimerHandle | None = None
        """Set while there is a rest for which room is awaited."""
        self._leaving = False
        self._gone = False

    def paint(self, data: bytes) -> None:
        """Write painting, which may be left out."""
        if not self._leaving:
            self._add(data, painting=True)

    def send(self, data: bytes) -> None:
        """Write what must not be lost: what the terminal is to do or to be."""
        self._add(data, painting=False)

    def leave(self) -> None:
        """Nothing is painted any more: what follows puts the terminal right."""
        self._leaving = True
        if self._backlog:
            self._backlog.cut_painting()

    def close(self) -> None:
        """Write what the terminal takes within half a second or so, and let go of it."""
        self._await_no_room()
        self._write(*_AT_LAST)
        if self._backlog:
            self._write_over_what_is_unread()
        self._let_go()

    def _add(self, data: bytes, *, painting: bool) -> None:
        if self._gone:
            return
        self._backlog.add(data, painting=painting)
        if self._still is None:
            self._write(*_AT_ONCE)
            if self._backlog:
                self._await_room()

    def _write(self, waits: int = 0, seconds: float = 0) -> None:
        """Write until nothing is left, or there is no room."""
        while rest := self._backlog.rest():
            try:
                self._backlog.took(os.write(self._descriptor, rest))
            except BlockingIOError:
                if not waits or not has_room(self._descriptor, seconds):
                    return
                waits -= 1
            except OSError:  # the window was closed
                self._let_go()
                return

    def _await_room(self) -> None:
        if self._still is None:
            self._loop.add_writer(self._descriptor, self._found_room)
        else:
            self._still.cancel()
        self._still = self._loop.call_later(_STANDS_STILL, self._backlog.cut_painting)

    def _await_no_room(self) -> None:
        if self._still is not None:
            self._still.cancel()
            self._still = None
            self._loop.remove_writer(self._descriptor)

    def _found_room(self) -> None:
        self._write()
        if self._gone:
            return
        if self._backlog:
            self._await_room()
            return
        self._await_no_room()
        if self._backlog.behind and not self._leaving:
            self._backlog.behind = False
            self._paint_anew()

    def _write_over_what_is_unread(self) -> None:
        """Have the system forget what waits to be read, so that the last of it finds room."""
        forget_unread(self._descriptor)
        self._backlog.start_again()
        with suppress(OSError):
            os.write(self._descriptor, _BROKEN_OFF)
            self._write()

    def _let_go(self) -> None:
        if self._gone:
            return
        self._await_no_room()
        self._gone, self._backlog = True, Backlog()
        os.close(self._descriptor)
