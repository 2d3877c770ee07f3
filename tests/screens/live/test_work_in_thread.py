"""Work in a thread: one after the other, and never more often than somebody waits for."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from threading import Event

import pytest

from classclock.screens.live.work_in_thread import WorkInThread


class Slow:
    """Work that takes until it is let go; it gives how often it was done."""

    def __init__(self) -> None:
        self.begun, self.has_begun, self.let_go = 0, Event(), Event()
        self.came: list[int] = []
        self.work = WorkInThread(self._do, self.came.append)

    def _do(self) -> int:
        self.begun += 1
        number = self.begun
        self.has_begun.set()
        self.let_go.wait(10)
        return number

    @asynccontextmanager
    async def running(self) -> AsyncIterator[None]:
        task = asyncio.create_task(self.work.run())
        yield
        task.cancel()


async def test_what_is_asked_for_while_it_is_being_done_is_done_once_more() -> None:
    slow = Slow()
    async with slow.running():
        slow.work.ask()
        assert await asyncio.to_thread(slow.has_begun.wait, 10)
        for _ in range(5):
            slow.work.ask()
        slow.let_go.set()
        await slow.work.finished()
        assert slow.begun == 2
    assert slow.came[:1] == [1]


async def test_nothing_asked_for_is_finished_at_once() -> None:
    slow = Slow()
    async with slow.running():
        await slow.work.finished()
        assert slow.begun == 0


def test_a_work_that_never_ends_keeps_nobody_from_ending() -> None:
    slow = Slow()

    async def ends() -> None:
        async with slow.running():
            slow.work.ask()
            assert await asyncio.to_thread(slow.has_begun.wait, 10)

    asyncio.run(ends())  # a thread of asyncio's own would be waited for
    assert not slow.let_go.is_set()
    slow.let_go.set()
    assert slow.came == []


async def test_what_goes_wrong_in_the_thread_is_raised_where_it_is_waited_for() -> None:
    def fail() -> None:
        raise LookupError("no such thing")

    work = WorkInThread(fail, lambda _: None)
    work.ask()
    with pytest.raises(LookupError, match="no such thing"):
        await work.run()
