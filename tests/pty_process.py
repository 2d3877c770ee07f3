"""A process in a terminal of its own: a pty, of which this side reads what is painted and types.

`setsid` of util-linux gives it the terminal: a fork in a process with threads may hang, and Python
warns of it from 3.12 on.
"""

import os
import subprocess
import sys
import termios
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from tests.signals import KILL


class PtyProcess:
    """Started at once; whoever has it ends it."""

    def __init__(
        self,
        command: Sequence[str],
        *,
        columns: int,
        rows: int,
        environment: Mapping[str, str],
        folder: Path | None = None,
    ) -> None:
        self.child_fd, theirs = _pair()
        self.closed = False
        """Whether the terminal's window is gone."""
        self.setwinsize(rows, columns)
        try:
            self._process = subprocess.Popen(
                ("setsid", "--ctty", *command),  # noqa: S607  wherever it is
                stdin=theirs,
                stdout=theirs,
                stderr=theirs,
                env=environment,
                cwd=folder,
            )
        finally:
            os.close(theirs)
        self.pid = self._process.pid

    def setwinsize(self, rows: int, columns: int) -> None:
        if sys.platform == "win32":
            raise NotImplementedError("a pty")
        termios.tcsetwinsize(self.child_fd, (rows, columns))

    def kill(self, number: int) -> None:
        """Send it a signal; one that has ended gets none."""
        self._process.send_signal(number)

    def status(self) -> int | None:
        """Its exit status, negative where a signal ended it; None while it runs."""
        return self._process.poll()

    def hang_up(self) -> None:
        """Close the terminal's window."""
        if not self.closed:
            os.close(self.child_fd)
            self.closed = True

    def end(self) -> None:
        """End it in any case, and close its terminal."""
        with suppress(OSError):
            self.kill(KILL)
        self._process.wait()
        self.hang_up()


def _pair() -> tuple[int, int]:
    """Both sides of a new terminal: ours, and the process's."""
    if sys.platform == "win32":
        raise NotImplementedError("a pty")
    return os.openpty()
