"""Keeps a player process going: starts it, listens to it, ends one that hangs, starts another."""

import subprocess
import sys
import threading
from collections.abc import Callable, Mapping, Sequence

from classclock.sound.messages import (
    Alive,
    Ask,
    Ready,
    SoundNotice,
    SoundOrder,
    SoundStatus,
    line,
    read_status,
)
from classclock.sound.order_pipe import OrderPipe

COMMAND = (sys.executable, "-m", "classclock.sound.player")

_ASK_EVERY_S = 1.0
_UNANSWERED = 3  # this many questions without an answer: it hangs
_PAUSES_S = (0.1, 0.5, 2.0, 5.0, 10.0)  # before each new start; after the last it is given up
_SLOW = 10  # this many questions and no way to be heard yet
_STEADY = 30  # questions answered in a row: what went wrong before is forgotten

GIVEN_UP = "F3 tries the sound again: its player keeps stopping"
SLOW = "look at the TV's sound output: the sound system doesn't answer"


class Supervisor:
    """One player at a time. Every method returns at once; what takes time is in its threads."""

    def __init__(
        self,
        heard: Callable[[SoundStatus], None],
        greeting: Callable[[], Sequence[SoundOrder]],
        *,
        command: Sequence[str] = COMMAND,
        environ: Mapping[str, str] | None = None,
        ask_every_s: float = _ASK_EVERY_S,
        pauses_s: Sequence[float] = _PAUSES_S,
    ) -> None:
        """`heard` gets what the player says; `greeting` is what every new player is told first."""
        self._heard = heard
        self._greeting = greeting
        self._command = command
        self._environ = environ
        self._ask_every_s = ask_every_s
        self._pauses_s = pauses_s
        self._lock = threading.Lock()
        self._process: subprocess.Popen[bytes] | None = None
        self._pipe: OrderPipe | None = None
        self._thread: threading.Thread | None = None
        self._closing = threading.Event()
        self._unanswered = 0
        self._answered = 0
        self._ready = False

    def start(self) -> None:
        """Start a player, or try again after it was given up."""
        if self._closing.is_set() or (self._thread is not None and self._thread.is_alive()):
            return
        self._thread = threading.Thread(target=self._keep, name="sound player", daemon=True)
        self._thread.start()

    def tell(self, order: SoundOrder) -> None:
        """Hand over an order; without a player it is dropped, as the greeting says it all anew."""
        with self._lock:
            self._write(order)

    def close(self) -> None:
        """End the player; it falls silent when its stdin closes."""
        self._closing.set()
        with self._lock:
            self._end()
        if self._thread is not None:
            self._thread.join(2)

    @property
    def pid(self) -> int | None:
        """The process that runs at present."""
        process = self._process
        return process.pid if process is not None else None

    def _write(self, order: SoundOrder) -> None:
        """Write without ever waiting."""
        if self._process is not None and self._pipe is not None and not self._pipe.put(line(order)):
            self._process.kill()  # it hasn't read for a long time

    def _keep(self) -> None:
        failures = 0
        while not self._closing.is_set():
            self._live_once()
            if self._closing.is_set():
                return
            if self._answered >= _STEADY:
                failures = 0
            if failures == len(self._pauses_s):
                self._heard(SoundNotice(GIVEN_UP, lasts=True))
                return
            self._closing.wait(self._pauses_s[failures])
            failures += 1

    def _live_once(self) -> None:
        """Run one player, from its start until it has ended."""
        self._unanswered = self._answered = 0
        try:
            process = subprocess.Popen(
                self._command,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,  # audio libraries write there, over the screen
                env=self._environ,
                bufsize=0,
            )
        except OSError:
            return
        with process:
            ended = threading.Event()
            threading.Thread(target=self._listen, args=(process, ended), daemon=True).start()
            self._introduce(process)
            self._watch(process, ended)
            with self._lock:
                self._end()

    def _introduce(self, process: subprocess.Popen[bytes]) -> None:
        """From now on orders go to this player; first all that it must know."""
        with self._lock:
            if process.stdin is not None:
                self._process, self._pipe = process, OrderPipe(process.stdin)
                process.stdin = None
            for order in self._greeting():
                self._write(order)
            if self._closing.is_set():
                self._end()

    def _watch(self, process: subprocess.Popen[bytes], ended: threading.Event) -> None:
        """Return when it has ended; see to it that it does when it hangs."""
        questions = 0
        while not ended.wait(self._ask_every_s):
            if self._closing.is_set() or self._unanswered >= _UNANSWERED:
                process.kill()
                continue
            self._unanswered += 1
            questions += 1
            if questions == _SLOW and not self._ready:
                self._heard(SoundNotice(SLOW, lasts=True))
            self.tell(Ask())

    def _listen(self, process: subprocess.Popen[bytes], ended: threading.Event) -> None:
        self._ready = False
        for text in process.stdout or ():
            try:
                status = read_status(text)
            except ValueError:
                continue  # a library's own words on stdout
            if isinstance(status, Alive):
                self._unanswered = 0
                self._answered += 1
            else:
                self._ready = self._ready or isinstance(status, Ready)
                self._heard(status)
        ended.set()

    def _end(self) -> None:
        if self._pipe is not None:
            self._pipe.close()
        self._process = self._pipe = None
