"""Textual's driver, with a terminal's answers kept out of the keys.

Textual takes what it doesn't know for keys: of a late answer each sign would be one, and the `c` at
its end a tap.
"""

import os
import select
from codecs import getincrementaldecoder

from textual import events
from textual._xterm_parser import XTermParser
from textual.driver import Driver
from textual.drivers.linux_driver import LinuxDriver

from classclock.clock.source import stamp_now
from classclock.machine.terminal_query import TerminalQuery

_ESCAPE = b"\x1b"
_PAUSE = 0.1
"""Seconds between two looks at what waits for more, as Textual's own thread has it."""


class KeyDriver(LinuxDriver):
    """Reads on where `query` stopped reading."""

    query: TerminalQuery

    def run_input_thread(self) -> None:
        """Make events of what is typed, until the app ends."""
        parser, decode = XTermParser(), getincrementaldecoder("utf-8")().decode
        answers = self.query.answers

        def strike(typed: bytes) -> None:
            if text := decode(typed):
                for event in parser.feed(text):
                    self.process_message(event)

        typed, self.query.early = self.query.early, b""
        strike(typed)
        heard = stamp_now()
        while not self.exit_event.is_set():
            if select.select([self.fileno], [], [], _PAUSE)[0]:
                strike(answers.typed(os.read(self.fileno, 4096)))
                heard = stamp_now()
            elif typed := answers.typed_after(stamp_now() - heard):
                if typed == _ESCAPE:  # Textual would wait as long again
                    self.process_message(events.Key("escape", "\x1b"))
                else:
                    strike(typed)
            for event in parser.tick():
                self.process_message(event)


def driver_after(query: TerminalQuery, usual: type[Driver]) -> type[Driver]:
    """The usual one, but that it reads on after this query; that itself if it reads no terminal."""
    if not issubclass(usual, LinuxDriver):
        return usual
    return type("AskedDriver", (KeyDriver, usual), {"query": query})
