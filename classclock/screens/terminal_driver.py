"""Textual's driver for a terminal, but that a terminal which doesn't read holds up nothing.

Textual's own writes from a thread through a short queue, and waits for both: nothing read, no key
handled, no signal obeyed, no end.
"""

import asyncio
import sys
import threading

from textual.driver import Driver
from textual.drivers.linux_driver import LinuxDriver

from classclock.machine.opened_anew import opened_anew
from classclock.machine.terminal_output import TerminalOutput

UPDATE, UPDATED = "\x1b[?2026h", "\x1b[?2026l"
"""Around a frame that is to be shown at once; only where the terminal said that it can."""
PLACES_CURSOR = "H"
"""Every frame ends by placing the cursor, nothing else that is written to a terminal does."""


class NeverWaitingDriver(LinuxDriver):
    """Writes through a `TerminalOutput`; where that can't be had, as Textual does."""

    _output: TerminalOutput | None = None
    _thread = 0
    _in_update = False

    def start_application_mode(self) -> None:
        file = sys.__stderr__
        self._output = None
        descriptor = opened_anew(file)
        if descriptor is not None and file is not None:
            self._encoding, self._errors = file.encoding, file.errors or "strict"
            self._thread = threading.get_ident()
            self._running = asyncio.get_running_loop()
            self._output = TerminalOutput(descriptor, self._running, self._paint_anew)
        super().start_application_mode()  # type: ignore[no-untyped-call]  # Textual's

    def write(self, data: str) -> None:
        if self._output is None:
            super().write(data)
        elif threading.get_ident() == self._thread:
            self._put(self._output, data)
        else:  # an answer of the terminal is answered where it is read
            self._running.call_soon_threadsafe(self._put, self._output, data)

    def _put(self, output: TerminalOutput, data: str) -> None:
        if data in (UPDATE, UPDATED):
            self._in_update = data == UPDATE
        elif data.endswith(PLACES_CURSOR):
            frame = f"{UPDATE}{data}{UPDATED}" if self._in_update else data
            output.paint(frame.encode(self._encoding, self._errors))
        else:
            output.send(data.encode(self._encoding, self._errors))

    def _paint_anew(self) -> None:
        self._app.call_later(self._app.refresh)

    def stop_application_mode(self) -> None:
        if self._output is not None:
            self._output.leave()
        super().stop_application_mode()

    def close(self) -> None:
        if self._output is not None:
            self._output.close()
        super().close()


def driver_like(usual: type[Driver]) -> type[Driver]:
    """What takes the place of Textual's own choice; that itself where somebody chose another."""
    return NeverWaitingDriver if usual is LinuxDriver else usual
