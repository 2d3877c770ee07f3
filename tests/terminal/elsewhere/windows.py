"""The program as on Windows: what of it is imitated, see `imitation.py`.

Imitated, in this process and its children: no fcntl, SIGHUP, fdatasync, set_blocking, O_NONBLOCK
and other names of POSIX; no folder can be opened; a file that anybody has open is neither replaced
nor removed; what is locked can't be read; a file opened without O_BINARY gets two characters for
each end of a line; interrupt time, the clock by which Textual stamps keys there, LockFileEx; a
window that is closed. Not: the console and Textual's driver for it, the file system and who may
read it, sleep, sound, how processes are started.
"""

import asyncio
import ctypes
import errno
import os
import signal
import stat
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

from tests.signals import HANG_UP
from tests.terminal.elsewhere.imitation import (
    REAL,
    Imitation,
    hide_linux_folders,
    open_only,
    refusing,
    tell,
)

NO_MODULES = frozenset({"fcntl", "termios", "tty", "pty", "pwd", "grp", "resource"})
NOT_IN_OS = (
    *("fdatasync", "set_blocking", "get_blocking", "pread", "pwrite", "fchmod", "fchown"),
    *("O_NONBLOCK", "O_DIRECTORY", "O_CLOEXEC", "O_NOFOLLOW", "O_SYNC", "O_DSYNC", "O_TMPFILE"),
    *("getuid", "geteuid", "getgid", "fork", "killpg", "setsid", "mkfifo", "mknod", "openpty"),
    *("statvfs", "fstatvfs", "sysconf", "uname", "nice", "posix_fallocate", "sched_getaffinity"),
)
NOT_IN_SIGNAL = (
    *("SIGHUP", "SIGKILL", "SIGSTOP", "SIGCONT", "SIGTSTP", "SIGQUIT", "SIGUSR1", "SIGUSR2"),
    *("SIGALRM", "SIGPIPE", "SIGCHLD", "SIGWINCH", "setitimer", "alarm", "pthread_kill"),
)
NOT_IN_TIME = ("clock_gettime", "clock_gettime_ns", "CLOCK_BOOTTIME", "CLOCK_MONOTONIC")
O_BINARY = 0x8000
"""As in Windows' <_fcntl.h>."""
SIGBREAK = 21
WINDOW_CLOSED = 2
GRANTED_S = 5
KILLED_BY_CONTROL = 0xC000013A & 0xFF
BEHIND = 5000.0
"""Seconds by which the clock of the stamps there is behind `time.monotonic`."""

_fcntl = REAL["fcntl"]
_open, _read_link, _list = os.open, os.readlink, os.listdir
_perf_counter = time.perf_counter  # noqa: TID251  what Textual reads there
_in_text_mode: set[int] = set()
_handlers: list[Callable[[int], bool]] = []


def begin() -> None:
    """Show the program Windows from now on."""
    there = Imitation(NO_MODULES)
    there.show("sys", platform="win32")
    there.show("os", *NOT_IN_OS, name="nt", O_BINARY=O_BINARY, open=_opened, write=_written)
    there.show("signal", *NOT_IN_SIGNAL, SIGBREAK=SIGBREAK)
    there.show("time", *NOT_IN_TIME)
    there.show(
        "ctypes",
        WinDLL=_Library,
        WINFUNCTYPE=lambda *_: lambda function: function,
        WinError=lambda number: OSError(number, "as Windows said"),
        get_last_error=lambda: _Library.error,
    )
    there.add("msvcrt", get_osfhandle=lambda file: file, open_osfhandle=lambda handle, _: handle)
    there.also_to("textual._time")
    win_sleep = ModuleType("textual._win_sleep")
    win_sleep.__dict__["sleep"] = asyncio.sleep
    sys.modules["textual._win_sleep"] = win_sleep
    time.perf_counter = lambda: _perf_counter() - BEHIND  # noqa: TID251  the same
    setattr(asyncio.SelectorEventLoop, "add_signal_handler", _no_signals)  # noqa: B010  a method
    signal.signal(HANG_UP, _close_window)
    for name in ("replace", "rename", "unlink", "remove"):
        setattr(os, name, refusing(getattr(os, name), _refused_while_open))
    hide_linux_folders()
    open_only(_refused_while_locked)
    there.begin()


# -- files -------------------------------------------------------------------------


def _opened(path: Any, flags: int, mode: int = 0o777) -> int:
    if Path(path).is_dir():
        raise PermissionError(errno.EACCES, "Permission denied", str(path))
    file = _open(path, flags & ~O_BINARY, mode)
    if flags & O_BINARY:
        _in_text_mode.discard(file)
    else:
        _in_text_mode.add(file)
    return file


def _written(file: int, data: Any) -> int:
    if file not in _in_text_mode or not stat.S_ISREG(os.fstat(file).st_mode):
        return os.write(file, data)
    os.write(file, bytes(data).replace(b"\n", b"\r\n"))
    return len(data)


def _refused_while_open(*paths: Any, dir_fd: int | None = None, **_: Any) -> None:
    if dir_fd is not None:
        return
    wanted = {os.path.realpath(path) for path in paths}
    if wanted & _open_now():
        tell(f"refused while it is open: {Path(paths[-1]).suffix}")
        raise PermissionError(errno.EACCES, "it is being used by another process", str(paths[-1]))


def _open_now() -> set[str]:
    """The files that anybody has open now."""
    found = set()
    for process in filter(str.isdecimal, _list("/proc")):
        try:
            for file in _list(f"/proc/{process}/fd"):
                found.add(_read_link(f"/proc/{process}/fd/{file}"))
        except OSError:
            continue  # it ended, or the file was closed, in this moment
    return found


def _refused_while_locked(path: Any, mode: str = "r", *_: Any, **__: Any) -> None:
    """As soon as it is opened; Windows itself lets one open it and refuses to read."""
    if "r" not in mode or not isinstance(path, str | os.PathLike) or not Path(path).is_file():
        return
    file = _open(path, os.O_RDONLY)
    try:
        _fcntl.flock(file, _fcntl.LOCK_SH | _fcntl.LOCK_NB)
    except BlockingIOError:
        tell(f"refused while it is locked: {Path(path).name}")
        raise PermissionError(errno.EACCES, "Permission denied", str(path)) from None
    finally:
        os.close(file)


# -- the system's libraries --------------------------------------------------------


class _Function:
    """One of the system's functions; ctypes lets its types be set."""

    def __init__(self, act: Callable[..., Any]) -> None:
        self._act = act

    def __call__(self, *arguments: Any) -> Any:
        return self._act(*arguments)


class _Library:
    """A library of the system: what the program and filelock call is there."""

    error = 0

    def __init__(self, name: str, **_: Any) -> None:
        self._name = name

    def __getattr__(self, name: str) -> _Function:
        known: dict[str, Callable[..., Any]] = {
            "QueryInterruptTimePrecise": _interrupt_time,
            "SetConsoleCtrlHandler": _add_handler,
            "LockFileEx": _lock,
            "UnlockFileEx": _unlock,
        }
        function = _Function(known.get(name, _not_imitated(name)))
        self.__dict__[name] = function
        return function


def _not_imitated(name: str) -> Callable[..., Any]:
    def fail(*_: Any) -> Any:
        raise NotImplementedError(f"{name} is not imitated")

    return fail


def _interrupt_time(into: Any) -> None:
    hundreds = REAL["time"].clock_gettime_ns(REAL["time"].CLOCK_BOOTTIME) // 100
    ctypes.cast(into, ctypes.POINTER(ctypes.c_ulonglong))[0] = ctypes.c_ulonglong(hundreds)


def _lock(handle: int, *_: Any) -> int:
    try:
        _fcntl.flock(handle, _fcntl.LOCK_EX | _fcntl.LOCK_NB)
    except BlockingIOError:
        _Library.error = 33  # ERROR_LOCK_VIOLATION
        return 0
    tell("LockFileEx")
    return 1


def _unlock(handle: int, *_: Any) -> int:
    _fcntl.flock(handle, _fcntl.LOCK_UN)
    return 1


# -- signals and windows -----------------------------------------------------------


def _no_signals(*_: Any) -> None:
    raise NotImplementedError


def _add_handler(handler: Callable[[int], bool], add: bool) -> int:  # noqa: FBT001  as there
    if add:
        _handlers.append(handler)
    return 1


def _close_window(*_: Any) -> None:
    """The terminal hangs up: as there, the newest handler is called first, in a thread."""

    def closing() -> None:
        for handler in reversed(_handlers):
            if handler(WINDOW_CLOSED):
                break
        os._exit(KILLED_BY_CONTROL)

    last = threading.Timer(GRANTED_S, os._exit, (KILLED_BY_CONTROL,))
    for thread in (last, threading.Thread(target=closing)):
        thread.daemon = True
        thread.start()
