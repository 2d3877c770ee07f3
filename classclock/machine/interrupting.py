"""Ctrl+c held back for as long as something is half done."""

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def uninterrupted(*, for_good: bool = False) -> Iterator[None]:
    """Ctrl+c comes at the end of this, not in the middle; for what takes a moment.

    `for_good`: what is done can't be undone, so that ctrl+c came too late, and is forgotten.
    Nothing is held back where ctrl+c doesn't end the program anyway, or in a thread of its own, in
    which it never arrives.

    Raises:
        KeyboardInterrupt: at the end, if ctrl+c was struck meanwhile.
    """
    usual = signal.getsignal(signal.SIGINT)
    if usual is not signal.default_int_handler or not _in_main_thread():
        yield
        return
    struck: list[int] = []

    def later(number: int, _: FrameType | None) -> None:
        struck.append(number)

    signal.signal(signal.SIGINT, later)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, usual)
    if struck and not for_good:
        raise KeyboardInterrupt


def _in_main_thread() -> bool:
    return threading.current_thread() is threading.main_thread()
