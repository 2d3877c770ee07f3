"""What the club remembers read in a thread, one reading after the other."""

import asyncio
from collections.abc import Callable


class Memory:
    """`ask` for it to be read anew; `run` does it until cancelled."""

    def __init__(self, read: Callable[[], str], told: Callable[[str], None]) -> None:
        """`read` runs in a thread and says what was wrong; `told` gets that on the loop."""
        self._read, self._told = read, told
        self._wanted = asyncio.Event()

    def ask(self) -> None:
        self._wanted.set()

    async def run(self) -> None:
        while True:
            await self._wanted.wait()
            self._wanted.clear()
            self._told(await asyncio.to_thread(self._read))
