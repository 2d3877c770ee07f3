"""The system's clocks. Nothing but `clock.source` reads them: time comes in through that door.

`raw_clock` counts from the machine's start, its sleep too, and never follows the time of day; it
reads the same in every process. `key_clock` is the one by which Textual stamps what arrives
(`textual._time`): a stamp's age holds as long as the machine doesn't sleep.
"""

import sys
import time

if sys.platform == "win32":
    import ctypes

    _read_interrupt_time = ctypes.WinDLL("kernelbase").QueryInterruptTimePrecise
    _read_interrupt_time.restype = None
    _read_interrupt_time.argtypes = (ctypes.POINTER(ctypes.c_ulonglong),)

    def raw_clock() -> int:
        """Nanoseconds. Windows 10's interrupt time, in steps of 100 ns.

        `time.monotonic` reads another clock on later versions of Python than on earlier ones, and
        whether that counts sleep isn't written down.
        """
        hundreds = ctypes.c_ulonglong()
        _read_interrupt_time(ctypes.byref(hundreds))
        return hundreds.value * 100

    def key_clock() -> float:
        """Seconds."""
        return time.perf_counter()

else:
    if sys.platform == "darwin":
        # As CLOCK_MONOTONIC this one counts sleep (clock_gettime(3)), and nobody adjusts it.
        _CLOCK = time.CLOCK_MONOTONIC_RAW
    elif sys.platform == "linux":
        _CLOCK = time.CLOCK_BOOTTIME
    else:
        _CLOCK = time.CLOCK_MONOTONIC

    def raw_clock() -> int:
        """Nanoseconds."""
        return time.clock_gettime_ns(_CLOCK)

    def key_clock() -> float:
        """Seconds."""
        return time.monotonic()
