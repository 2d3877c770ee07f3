"""Work that takes its time, done in a thread, one after the other: no key waits for it.

Nor does the end of the program, as it would for a thread of asyncio's own: a disk may never answer.
"""

import asyncio
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from threading import Thread
from typing import Generic, TypeVar

T = TypeVar("T")


class WorkInThread(Generic[T]):
    """`ask` for it to be done as things then stand; `run` does it until cancelled."""

    def __init__(self, work: Callable[[], T], done: Callable[[T], None]) -> None:
        """`work` runs in a thread; `done` gets what came of it, on the loop."""
        self._work, self._done = work, done
        self._wanted = asyncio.Event()
        self._resting = asyncio.Event()
        self._resting.set()

    def ask(self) -> None:
        self._resting.clear()
        self._wanted.set()

    async def run(self) -> None:
        while True:
            await self._wanted.wait()
            self._wanted.clear()
            came = await _in_thread(self._work)
            if not self._wanted.is_set():
                self._resting.set()
            self._done(came)

    async def finished(self) -> None:
        """Wait until all that was asked for is done."""
        await self._resting.wait()


async def _in_thread(work: Callable[[], T]) -> T:
    loop = asyncio.get_running_loop()
    came: asyncio.Future[T] = loop.create_future()

    def settle(set_it: Callable[[], None]) -> None:
        if not came.done():  # nobody has given up on it
            set_it()

    def do() -> None:
        try:
            result = work()
        except BaseException as error:  # noqa: BLE001  handed on to whoever waits
            told = partial(came.set_exception, error)
        else:
            told = partial(came.set_result, result)
        with suppress(RuntimeError):  # the loop is gone: so is whoever waited
            loop.call_soon_threadsafe(settle, told)

    Thread(target=do, daemon=True).start()
    return await came
