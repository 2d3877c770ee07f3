"""What tells one start of the machine from another: within one, the raw clock holds.

Linux and macOS give each start a name of its own. Windows gives none, so that a start is told there
by when it was, worked out from the raw clock and the time of day. Where somebody sets the time of
day by more than `SLACK` during a class, one start is taken for two; the class then goes by the time
of day and asks the coach to check. Two starts can't be taken for one: they are further apart. What
Windows calls a fast start is none: it goes on from where it slept, and so does its clock.
"""

import datetime as dt
import sys
import time
from pathlib import Path

from classclock.machine.clocks import raw_clock

SLACK = dt.timedelta(seconds=5)
"""A computer's quartz is off by 4 s a day at most (from memory); no start takes so little."""
_SINCE = "since "


def boot_id() -> str:
    """The name of the machine's present start."""
    return _name() or _SINCE + _started().isoformat(timespec="milliseconds")


def same_boot(one: str, other: str) -> bool:
    """Whether two names, each as `boot_id` gave it, are of one start."""
    if one == other:
        return True
    try:
        ours, theirs = (_moment(name) for name in (one, other))
        return abs(ours - theirs) <= SLACK
    except (ValueError, TypeError, OverflowError):
        return False


def _moment(name: str) -> dt.datetime:
    """Raises ValueError where the name doesn't say when the start was."""
    if not name.startswith(_SINCE):
        raise ValueError(name)
    return dt.datetime.fromisoformat(name.removeprefix(_SINCE))


def _started() -> dt.datetime:
    return dt.datetime.fromtimestamp((time.time_ns() - raw_clock()) / 1e9, dt.UTC)


if sys.platform == "linux":

    def _name() -> str:
        try:
            return Path("/proc/sys/kernel/random/boot_id").read_text(encoding="ascii").strip()
        except OSError:
            return ""

elif sys.platform == "darwin":
    import ctypes

    def _name() -> str:
        """What `sysctl kern.bootsessionuuid` says."""
        room = ctypes.create_string_buffer(64)
        size = ctypes.c_size_t(len(room))
        ask = ctypes.CDLL(None).sysctlbyname
        name, nothing = b"kern.bootsessionuuid", ctypes.c_size_t(0)
        failed = ask(name, room, ctypes.byref(size), None, nothing)
        return "" if failed else room.value.decode("ascii", "replace")

else:

    def _name() -> str:
        return ""
