"""The results saved in a thread, one writing after the other, so that no key waits for a disk."""

import asyncio
from collections.abc import Callable


class Saver:
    """`ask` for the results to be written as they then stand; `run` does it until cancelled."""

    def __init__(self, save: Callable[[], object], saved: Callable[[], None]) -> None:
        """`save` runs in a thread; `saved` is called on the loop when it is through."""
        self._save = save
        self._saved = saved
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
            await asyncio.to_thread(self._save)
            if not self._wanted.is_set():
                self._resting.set()
            self._saved()

    async def done(self) -> None:
        """Wait until all that was asked for is written, or couldn't be."""
        await self._resting.wait()
