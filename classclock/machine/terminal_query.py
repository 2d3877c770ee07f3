"""Asks the terminal what it is, before anything else reads what is typed.

It answers while modules are loaded. An answer that comes later is still known as one, and what was
typed meanwhile is not lost: `answers` and `early` are for whoever reads on.
"""

import os
import select
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

from classclock.machine.terminal_answers import QUERY, TerminalAnswers

MOST_SECONDS = 0.1
"""How long an answer is waited for, from the question on.

It takes longer to load the screens: a terminal that says nothing costs no start any time.
"""


class TerminalQuery:
    """One question to a terminal that reads and writes through these; `now` is in seconds."""

    def __init__(self, reads: int, writes: int, now: Callable[[], float]) -> None:
        self.answers = TerminalAnswers()
        self.early = b""
        """What was typed before Textual reads."""
        self._reads = reads
        self._now, self._until = now, now() + MOST_SECONDS
        os.write(writes, QUERY)

    def version(self) -> str:
        """What the terminal calls itself; empty where it didn't say so in time."""
        while not self.answers.complete:
            left = max(0.0, self._until - self._now())
            if not select.select([self._reads], [], [], left)[0]:
                break
            data = os.read(self._reads, 4096)
            if not data:
                break
            self.early += self.answers.typed(data)
        return self.answers.version


@contextmanager
def asked(now: Callable[[], float]) -> Iterator[TerminalQuery | None]:
    """The question, sent; None where there is no terminal to ask. Afterwards it is as it was.

    What it answers isn't echoed, nor held back until the end of a line.
    """
    if sys.platform == "win32":
        yield None
        return
    try:
        import termios  # noqa: PLC0415  not on every system
    except ImportError:
        yield None
        return
    reads, writes = sys.__stdin__, sys.__stderr__  # those that Textual uses
    if reads is None or writes is None or not (reads.isatty() and writes.isatty()):
        yield None
        return
    before = termios.tcgetattr(reads.fileno())
    silent = termios.tcgetattr(reads.fileno())
    silent[3] &= ~(termios.ECHO | termios.ICANON)
    termios.tcsetattr(reads.fileno(), termios.TCSANOW, silent)
    try:
        yield TerminalQuery(reads.fileno(), writes.fileno(), now)
    finally:
        with suppress(termios.error):
            # Not TCSAFLUSH, which waits until the terminal has read everything.
            termios.tcflush(reads.fileno(), termios.TCIFLUSH)
            termios.tcsetattr(reads.fileno(), termios.TCSANOW, before)
