"""A program in a terminal of its own, and when what it shows came out of it.

Nothing is drawn: the bytes are searched, so that this side takes no time of the machine.
"""

import atexit
import ctypes
import os
import re
import select
import signal
import sys
import time
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from types import TracebackType
from typing import Self

from classclock.clock.source import MS, raw_now
from classclock.machine.terminal_kinds import TELLING
from tests.pty_process import PtyProcess

ROOT = Path(__file__).parent.parent
_STYLING = re.compile(rb"\x1b\[[0-9;?]*[A-Za-z]")
_CUT_OFF = re.compile(rb"\x1b(?:\[[0-9;?]*)?\Z")
_NOT_SO = {"PYTHONDONTWRITEBYTECODE", "NO_COLOR", "CLASSCLOCK_CLUB", *TELLING}


@cache
def _compiled() -> str:
    """A folder for compiled modules, for this run of the benchmarks alone."""
    folder = TemporaryDirectory(prefix="classclock-compiled-")
    atexit.register(folder.cleanup)
    return folder.name


_QUESTION, _ANSWER = b"\x1b[c", b"\x1b[?62;22c"
"""Which terminal it is (DA1): every one answers, so this one does."""


class Window:
    """A Python module run in a pty of `columns` x `rows`."""

    def __init__(
        self,
        module: str,
        *arguments: str,
        columns: int = 120,
        rows: int = 36,
        environment: Mapping[str, str] | None = None,
    ) -> None:
        self._kept = b""
        terminal = {"TERM": "xterm-256color", "COLORTERM": "truecolor", "LC_ALL": "C.UTF-8"}
        same = {"TEXTUAL_FPS": "240", "PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": _compiled()}
        # Both are measured as installed: compiled, which an environment may have switched off.
        installed = {name: value for name, value in os.environ.items() if name not in _NOT_SO}
        self.started = raw_now()
        self._child = PtyProcess(
            (sys.executable, "-m", module, *arguments),
            columns=columns,
            rows=rows,
            environment={**installed, **terminal, **same, **(environment or {})},
        )

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._child.end()

    def press(self, keys: str) -> int:
        """Type; the raw reading then, in ns."""
        at = raw_now()
        os.write(self._child.child_fd, keys.encode())
        return at

    def shown(self, *texts: str, within: float = 20) -> int:
        """Wait until all of these have come out since the last call; the raw reading then, in ns.

        Raises:
            TimeoutError: they haven't, within so many seconds.
        """
        end = raw_now() + int(within * 1000) * MS
        wanted = [text.encode() for text in texts]
        longest = max(map(len, wanted))
        plain = b""
        while wanted:
            self._read(end)
            at = raw_now()
            # Only what is new is searched, or a large window would be charged for our searching.
            cut_off = _CUT_OFF.search(self._kept)
            whole = cut_off.start() if cut_off else len(self._kept)
            plain = plain[-longest:] + _STYLING.sub(b"", self._kept[:whole])
            self._kept = self._kept[whole:]
            wanted = [text for text in wanted if text not in plain]
            if wanted and at > end:
                raise TimeoutError(f"not shown within {within} s: {wanted}")
        self._kept = b""
        return at

    def look_on(self, seconds: float) -> None:
        """Take what comes out for so long, and leave it."""
        end = raw_now() + int(seconds * 1000) * MS
        while raw_now() < end:
            self._read(end)
            self._kept = b""

    def core_ns(self) -> int:
        """Nanoseconds of a core that the program has used so far.

        By the clock that POSIX has for each process: /proc counts in ticks of 10 ms, too coarse.
        """
        clock = ctypes.c_int()
        if error := ctypes.CDLL(None).clock_getcpuclockid(self._child.pid, ctypes.byref(clock)):
            raise OSError(error, os.strerror(error))
        return time.clock_gettime_ns(clock.value)

    def memory(self) -> int:
        """Bytes that the program has in memory."""
        pages = Path(f"/proc/{self._child.pid}/statm").read_text("ascii").split()[1]
        return int(pages) * os.sysconf("SC_PAGE_SIZE")

    def resize(self, columns: int, rows: int) -> None:
        self._child.setwinsize(rows, columns)

    def signal(self, number: signal.Signals) -> None:
        self._child.kill(number)

    def fileno(self) -> int:
        """Ready to be read as soon as the program has written something."""
        return self._child.child_fd

    def take(self) -> None:
        """Take what came out, and leave it."""
        self._take()
        self._kept = b""

    def _take(self) -> None:
        data = os.read(self._child.child_fd, 65536)
        if _QUESTION in data:
            os.write(self._child.child_fd, _ANSWER)
        self._kept += data

    def _read(self, end: int) -> None:
        ready, _, _ = select.select([self], [], [], max(0, end - raw_now()) / 1e9)
        if ready:
            self._take()


def percentile(values: Sequence[float], share: int) -> float:
    """The value that `share` percent of these are at or below."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, len(ordered) * share // 100)]
