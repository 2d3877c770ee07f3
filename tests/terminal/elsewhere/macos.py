"""The program as on macOS: what of it is imitated, see `imitation.py`.

Imitated: no fdatasync, no CLOCK_BOOTTIME, no /proc and /sys, F_FULLFSYNC, kern.bootsessionuuid.
Not: the file system, sleep, its terminals, its sound.
"""

import os
import stat
from types import SimpleNamespace
from typing import Any

from tests.terminal.elsewhere.imitation import REAL, Imitation, hide_linux_folders, tell

F_FULLFSYNC = 51
"""As in macOS's <sys/fcntl.h>."""
NOT_THERE = (
    "fdatasync",
    "posix_fallocate",
    "pipe2",
    "sched_getaffinity",
    "memfd_create",
    "O_TMPFILE",
)
SESSION = b"7A1C0F5E-5B39-4E0B-9C0E-0D8E6B1F2A34"


def begin() -> None:
    """Show the program macOS from now on."""
    there = Imitation(frozenset({"msvcrt", "winreg"}))
    there.show("sys", "getwindowsversion", platform="darwin")
    there.show("os", *NOT_THERE, fsync=_fsync)
    there.show("fcntl", fcntl=_fcntl, F_FULLFSYNC=F_FULLFSYNC)
    there.show("time", "CLOCK_BOOTTIME", clock_gettime_ns=_clock)
    there.show("ctypes", CDLL=lambda _: SimpleNamespace(sysctlbyname=_sysctlbyname))
    hide_linux_folders()
    there.begin()


def _kind(file: int) -> str:
    return "folder" if stat.S_ISDIR(os.fstat(file).st_mode) else "file"


def _fsync(file: int) -> None:
    tell(f"fsync {_kind(file)}")
    os.fsync(file)


def _fcntl(file: int, order: int, *rest: Any) -> Any:
    if order != F_FULLFSYNC:
        return REAL["fcntl"].fcntl(file, order, *rest)
    tell(f"F_FULLFSYNC {_kind(file)}")
    return os.fsync(file)


def _clock(clock: int) -> int:
    """CLOCK_MONOTONIC_RAW counts sleep there; here CLOCK_BOOTTIME does."""
    time = REAL["time"]
    raw = clock == time.CLOCK_MONOTONIC_RAW
    return int(time.clock_gettime_ns(time.CLOCK_BOOTTIME if raw else clock))


def _sysctlbyname(name: bytes, into: Any, size: Any, *_: Any) -> int:
    if name != b"kern.bootsessionuuid":
        return -1
    tell("kern.bootsessionuuid")
    into.value = SESSION
    return 0
