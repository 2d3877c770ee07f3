"""Signals that a process is sent. Windows has none of these; what needs one fails there."""

import os
import signal
import sys

if sys.platform == "win32":
    KILL = STOP = GO_ON = HANG_UP = TELL = signal.SIGTERM
else:
    KILL, STOP, GO_ON = signal.SIGKILL, signal.SIGSTOP, signal.SIGCONT
    HANG_UP = signal.SIGHUP
    TELL = signal.SIGUSR1
    """Without a meaning of its own: what it tells is agreed with the process."""


def end_all(group: int) -> None:
    """Kill a process that was started in a session of its own, with all that it started."""
    if sys.platform == "win32":
        os.kill(group, KILL)
    else:
        os.killpg(group, KILL)
