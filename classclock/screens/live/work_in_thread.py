"""Work that takes its time, done in a thread, one after the other: no key waits for it."""

import asyncio
from collections.abc import Callable
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
            came = await asyncio.to_thread(self._work)
            if not self._wanted.is_set():
                self._resting.set()
            self._done(came)

    async def finished(self) -> None:
        """Wait until all that was asked for is done."""
        await self._resting.wait()
