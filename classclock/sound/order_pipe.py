"""The pipe to a player that may have stopped reading: whoever writes into it never waits.

A pipe that takes what fits and refuses the rest isn't to be had on every system; a thread that
does the waiting is.
"""

import queue
import threading
from contextlib import suppress
from typing import IO

_MOST = 1000
"""So many orders unread: nobody reads them any more. A busy class gives a few dozen at once."""


class OrderPipe:
    """Writes lines in their order, in a thread of its own, until it is closed."""

    def __init__(self, pipe: IO[bytes]) -> None:
        """From now on the pipe is this object's alone: another's write could go astray."""
        self._pipe = pipe
        self._waiting: queue.SimpleQueue[bytes] = queue.SimpleQueue()
        threading.Thread(target=self._write, daemon=True, name="sound orders").start()

    def put(self, line: bytes) -> bool:
        """Have a line written; False where too many wait by now."""
        if self._waiting.qsize() >= _MOST:
            return False
        self._waiting.put(line)
        return True

    def close(self) -> None:
        """Close the pipe once all that waits is written. To one who doesn't read it never is."""
        self._waiting.put(b"")

    def _write(self) -> None:
        with suppress(OSError), self._pipe:  # the other end may be gone
            while line := self._waiting.get():
                self._pipe.write(line)
