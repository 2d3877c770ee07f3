"""The server of a class's page: a process of its own that is started, listened to, begun anew.

Whatever becomes of it the class goes on: no method here waits, and nothing here raises.
"""

import subprocess
import sys
import threading
from collections.abc import Sequence
from contextlib import suppress
from typing import IO

from msgspec import MsgspecError

from classclock.clock.source import raw_now
from classclock.following.page_messages import (
    MOST_BYTES,
    LetIn,
    NotServed,
    PageOrder,
    PageStatus,
    Serve,
    Served,
    line,
    read_status,
)
from classclock.following.page_words import GIVEN_UP, HANGS, STARTS_AGAIN
from classclock.sound.order_pipe import OrderPipe

COMMAND = (sys.executable, "-m", "classclock.serve.for_class")

_PAUSES_S = (0.2, 1.0, 5.0, 15.0)  # before each new start; after the last it is given up
_SILENT_S = 6.0  # it says how it stands every second: a silent one hangs
_LOOKS_S = 1.0
_NS = 1_000_000_000


class PageProcess:
    def __init__(
        self,
        serve: Serve,
        *,
        command: Sequence[str] = COMMAND,
        pauses_s: Sequence[float] = _PAUSES_S,
        silent_s: float = _SILENT_S,
    ) -> None:
        self._serve, self._command = serve, command
        self._pauses_s, self._silent_s = pauses_s, silent_s
        self.status: PageStatus | None = None
        """How it stands; None until it has said so."""
        self._closing = threading.Event()
        self._pipe: OrderPipe | None = None
        self._process: subprocess.Popen[bytes] | None = None
        self._heard = 0
        self._refused = False
        """It said itself why it can't be."""
        threading.Thread(target=self._keep, daemon=True, name="page server").start()

    @property
    def pid(self) -> int | None:
        process = self._process
        return process.pid if process is not None else None

    def let_in(self, digits: str) -> None:
        """Let the screen with these digits see the class."""
        self._tell(LetIn(digits))

    def close(self) -> None:
        """It ends when its stdin closes; nobody waits for that."""
        self._closing.set()
        pipe, self._pipe = self._pipe, None
        if pipe is not None:
            pipe.close()

    def _tell(self, order: PageOrder) -> None:
        pipe = self._pipe
        if pipe is not None:
            pipe.put(line(order))

    def _keep(self) -> None:
        for pause in (*self._pauses_s, None):
            self._live_once()
            if self._closing.is_set() or self._refused:
                return
            self.status = NotServed(GIVEN_UP if pause is None else STARTS_AGAIN)
            self._closing.wait(pause or 0)
            if pause is not None and not self._closing.is_set():
                self.status = None

    def _live_once(self) -> None:
        """Run one server, from its start until it has ended."""
        try:
            process = subprocess.Popen(
                self._command,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,  # it would stand over the screen
                bufsize=0,
            )
        except OSError:
            return
        with process:
            self._process, self._heard = process, raw_now()
            if process.stdin is not None and process.stdout is not None:
                self._pipe = OrderPipe(process.stdin)
                out, process.stdin, process.stdout = process.stdout, None, None
                self._tell(self._serve)
                listening = threading.Thread(target=self._listen, args=(out,), daemon=True)
                listening.start()
                self._watch(process)
                listening.join(_LOOKS_S)
            self._process = None

    def _watch(self, process: subprocess.Popen[bytes]) -> None:
        """Return when it has ended; see to it that it does where it hangs, or is to close."""
        while process.poll() is None:
            with suppress(subprocess.TimeoutExpired):
                process.wait(_LOOKS_S)
                return
            silent = (raw_now() - self._heard) / _NS
            if self._closing.is_set() or silent > 2 * self._silent_s:
                process.kill()
            elif silent > self._silent_s and isinstance(self.status, Served):
                self.status = NotServed(HANGS)

    def _listen(self, out: IO[bytes]) -> None:
        with suppress(OSError), out:
            for text in iter(lambda: out.readline(MOST_BYTES), b""):
                with suppress(MsgspecError):
                    self.status = read_status(text)
                    self._refused = isinstance(self.status, NotServed)
                    self._heard = raw_now()
