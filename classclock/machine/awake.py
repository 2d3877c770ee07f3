"""The screen kept awake while a class is open, in a thread: it waits for other processes."""

import threading


class Awake:
    """Keeps the screen on from `start` until `stop`."""

    def __init__(self) -> None:
        self._trouble = ""
        self._done = threading.Event()

    def start(self) -> None:
        threading.Thread(target=self._keep, daemon=True, name="awake").start()

    def poll(self) -> str:
        """That the screen can't be kept on, in words, once; nothing while it is."""
        trouble, self._trouble = self._trouble, ""
        return trouble

    def stop(self) -> None:
        self._done.set()

    def _keep(self) -> None:
        from wakepy import keep  # noqa: PLC0415  slow, and only for real classes

        try:
            with keep.presenting(on_fail="error"):
                self._done.wait()
        except (RuntimeError, OSError):  # ActivationError, or no way to reach the desktop
            self._trouble = "keep the screen on: it may go dark"
