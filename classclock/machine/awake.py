"""The screen kept awake while a class is open, in a thread: it waits for other processes."""

import threading
from collections.abc import Callable


class Awake:
    """Keeps the screen on from `start` until `stop`."""

    def __init__(self, say: Callable[[str], None]) -> None:
        """`say` is told, from the thread, if the screen can't be kept on."""
        self._say = say
        self._done = threading.Event()

    def start(self) -> None:
        threading.Thread(target=self._keep, daemon=True, name="awake").start()

    def stop(self) -> None:
        self._done.set()

    def _keep(self) -> None:
        from wakepy import keep  # noqa: PLC0415  slow, and only for real classes

        try:
            with keep.presenting(on_fail="error"):
                self._done.wait()
        except (RuntimeError, OSError):  # ActivationError, or no way to reach the desktop
            self._say("this machine's screen may go dark: switch its power saving off")
