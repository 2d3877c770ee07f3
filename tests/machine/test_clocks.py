"""Which clock each system is asked for, and that a key's stamp is on the one that Textual reads.

Windows: "The interrupt-time count … includes time the system spends in sleep or hibernation", in
units of 100 ns (Microsoft's page of QueryInterruptTimePrecise). macOS: clock_gettime(3).
"""

import ctypes
import importlib.util
import sys
import time
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import textual
from textual import events

from classclock.clock.source import MachineSource
from classclock.machine import clocks
from tests.machine.elsewhere import as_on, module_of

HUNDREDS = 86_400 * 10_000_000
"""A day, as Windows counts it."""


class Windows:
    """ctypes as it is there, as far as the clock asks: QueryInterruptTimePrecise in kernelbase."""

    def __init__(self) -> None:
        self.asked: list[str] = []
        self.module = module_of("ctypes", **{**vars(ctypes), "WinDLL": self._library})

    def _library(self, name: str) -> Any:
        def read(into: Any) -> None:
            self.asked.append(name)
            ctypes.cast(into, ctypes.POINTER(ctypes.c_ulonglong))[0] = HUNDREDS

        return SimpleNamespace(QueryInterruptTimePrecise=read)


def textual_clock(platform: str, patch: pytest.MonkeyPatch) -> Any:
    """The clock that Textual's own module of it takes on that system."""
    path = Path(textual.__file__).with_name("_time.py")
    spec = importlib.util.spec_from_file_location("textual_time_elsewhere", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    with patch.context() as there:
        there.setattr(sys, "platform", platform)
        there.setitem(sys.modules, "textual._win_sleep", module_of("_win_sleep", sleep=None))
        spec.loader.exec_module(module)
    return module.get_time


def clock_read_by(module: Any, patch: pytest.MonkeyPatch) -> Any:
    """Which of Python's clocks the module reads for the stamp of a key."""
    with patch.context() as wound:
        readings = {7.0: "monotonic", 8.0: "perf_counter"}
        wound.setattr(time, "monotonic", lambda: 7.0)
        wound.setattr(time, "perf_counter", lambda: 8.0)
        name = readings[module.key_clock()]
    return getattr(time, name)


def test_a_stamp_is_on_the_clock_that_textual_reads() -> None:
    before = clocks.key_clock()
    stamp = events.Key("n", "n").time
    assert before <= stamp <= clocks.key_clock()


@pytest.mark.parametrize("platform", ["linux", "darwin", "win32"])
def test_a_stamp_is_on_the_clock_that_textual_reads_on_every_system(
    platform: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    module = as_on(platform, clocks.__name__, monkeypatch, ctypes=Windows().module)
    assert clock_read_by(module, monkeypatch) is textual_clock(platform, monkeypatch)


@pytest.mark.parametrize(
    ("platform", "clock"),
    [
        ("linux", "CLOCK_BOOTTIME"),
        ("darwin", "CLOCK_MONOTONIC_RAW"),
        ("freebsd14", "CLOCK_MONOTONIC"),
    ],
)
def test_each_system_is_asked_for_the_clock_that_counts_sleep(
    platform: str, clock: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    others = {"CLOCK_BOOTTIME", "CLOCK_MONOTONIC_RAW", "CLOCK_MONOTONIC"} - {clock}
    for name in others:  # as where they are missing, or count no sleep
        monkeypatch.delattr(time, name)
    wanted = getattr(time, clock)
    monkeypatch.setattr(time, "clock_gettime_ns", {wanted: 42}.__getitem__)
    assert as_on(platform, clocks.__name__, monkeypatch).raw_clock() == 42


def test_windows_interrupt_time_is_read_in_whole_nanoseconds(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    windows = Windows()
    for name in ("clock_gettime_ns", "CLOCK_BOOTTIME", "CLOCK_MONOTONIC"):
        monkeypatch.delattr(time, name)
    module = as_on("win32", clocks.__name__, monkeypatch, ctypes=windows.module)
    assert module.raw_clock() == 86_400 * 1_000_000_000
    assert windows.asked == ["kernelbase"]


def test_the_source_reads_these_clocks() -> None:
    source = MachineSource()
    assert clocks.raw_clock() <= source.now() <= clocks.raw_clock()
    assert 0 <= source.age(clocks.key_clock() - 0.25) - 250_000_000 < 1_000_000_000
