"""A window that is closed, as Windows says it: to a function of ours, in a thread of its own.

Microsoft's page of HandlerRoutine: 0 is ctrl+c, 1 ctrl+break, 2 the window closed, 5 logged off,
6 shut down; for the last three the process ends when the function returns, or after 5 seconds.
"""

import asyncio
import ctypes
import signal
import threading
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from classclock.machine import ended_outside
from tests.machine.elsewhere import as_on, module_of

BREAK = 21
"""SIGBREAK in Windows' <signal.h>."""


@pytest.fixture
def handlers() -> list[Callable[[int], bool]]:
    """The functions that Windows was told to call."""
    return []


@pytest.fixture
def windows(handlers: list[Callable[[int], bool]], monkeypatch: pytest.MonkeyPatch) -> Any:
    def told(handler: Callable[[int], bool], add: bool) -> None:  # noqa: FBT001  as there
        assert add
        handlers.append(handler)

    kernel = SimpleNamespace(SetConsoleCtrlHandler=told)
    stand_in = module_of(
        "ctypes",
        **{**vars(ctypes), "WinDLL": {"kernel32": kernel}.__getitem__},
        WINFUNCTYPE=lambda *_: lambda function: function,
    )
    monkeypatch.delattr(signal, "SIGHUP")
    monkeypatch.setattr(signal, "SIGBREAK", BREAK, raising=False)
    monkeypatch.setattr(threading, "Timer", lambda *_: SimpleNamespace(start=lambda: None))
    return as_on("win32", ended_outside.__name__, monkeypatch, ctypes=stand_in)


@pytest.mark.parametrize("kind", [1, 2, 5, 6])
async def test_a_window_that_is_closed_ends_the_class_from_the_loop_s_own_thread(
    windows: Any, handlers: list[Callable[[int], bool]], kind: int
) -> None:
    ended: list[tuple[int, threading.Thread]] = []
    done = asyncio.Event()

    def end(status: int) -> None:
        ended.append((status, threading.current_thread()))
        done.set()

    windows.when_ended(end)
    answered: list[bool] = []
    calling = threading.Thread(target=lambda: answered.append(handlers[0](kind)), daemon=True)
    calling.start()
    await asyncio.wait_for(done.wait(), 5)
    assert ended == [(128 + BREAK, threading.current_thread())]
    assert answered == [], "the process would end in the middle of leaving"


async def test_ctrl_c_stays_a_key(windows: Any, handlers: list[Callable[[int], bool]]) -> None:
    ended: list[int] = []
    windows.when_ended(ended.append)
    assert not handlers[0](0)
    await asyncio.sleep(0)
    assert ended == []


def test_a_window_closed_after_the_app_ends_the_process_at_once(
    windows: Any, handlers: list[Callable[[int], bool]]
) -> None:
    async def app() -> None:
        windows.when_ended(lambda _: pytest.fail("its app is over"))

    asyncio.run(app())
    assert not handlers[0](2)
