"""The server as a process of its own, as a class starts it."""

import asyncio
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest

from classclock.clock.source import MachineSource, stamp_now
from classclock.following.page_messages import (
    LetIn,
    NotServed,
    PageOrder,
    PageStatus,
    Serve,
    Served,
    line,
    read_status,
)
from classclock.serve.page_server import listen
from classclock.tally import events as ev
from tests.following.conftest import PLAN
from tests.serve.browser import needs_chromium, opened, said
from tests.serve.conftest import HERE, Started
from tests.signals import GO_ON, STOP

pytestmark = pytest.mark.real_time


class Process:
    def __init__(self, process: asyncio.subprocess.Process) -> None:
        self.process = process

    async def says(self) -> PageStatus:
        assert self.process.stdout is not None
        return read_status(await asyncio.wait_for(self.process.stdout.readline(), 30))

    async def tell(self, order: PageOrder) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(line(order))
        await self.process.stdin.drain()

    async def ends(self) -> int:
        assert self.process.stdin is not None
        self.process.stdin.close()
        return await asyncio.wait_for(self.process.wait(), 30)


@asynccontextmanager
async def started(folder: Path, port: int = 0) -> AsyncIterator[Process]:
    pipe = asyncio.subprocess.PIPE
    process = await asyncio.create_subprocess_exec(
        *(sys.executable, "-m", "classclock.serve.for_class"), stdin=pipe, stdout=pipe
    )
    one = Process(process)
    await one.tell(Serve(str(folder), HERE, port))
    try:
        yield one
    finally:
        if process.returncode is None:
            process.kill()
            await process.wait()


async def test_it_says_where_it_is_who_waits_and_ends_with_its_class(tmp_path: Path) -> None:
    async with started(tmp_path) as server:
        told = await server.says()
        assert isinstance(told, Served)
        assert told.url.startswith(told.bare)
        port = int(told.bare.rpartition(":")[2].strip("/"))
        reader, writer = await asyncio.open_connection(HERE, port)
        writer.write(f"GET /knock HTTP/1.1\r\nHost: {HERE}:{port}\r\n\r\n".encode())
        while not told.waiting:
            status = await server.says()
            assert isinstance(status, Served)
            told = status
        await server.tell(LetIn(told.waiting[0]))
        await reader.readuntil(told.url.removeprefix(told.bare[:-1]).encode())
        writer.close()
        await writer.wait_closed()
        assert await server.ends() == 0


async def test_where_nobody_may_listen_it_says_what_to_do(tmp_path: Path) -> None:
    taken = listen(HERE, 0)
    taken.listen()
    async with started(tmp_path, taken.getsockname()[1]) as server:
        told = await server.says()
        assert isinstance(told, NotServed)
        assert "give another --port" in told.why
        assert await server.ends() == 1
    taken.close()


@needs_chromium
async def test_stopped_for_a_while_the_clock_goes_on_and_all_is_right_again(
    tmp_path: Path, start_class: Started
) -> None:
    plan = PLAN.replace('time   = "1:00"', 'time = "1:00"\ncount_in = "0:59"')
    session = start_class("Ilse", "Bram", plan=plan, source=MachineSource())
    session.live.record_event(ev.SegmentChosen(session.live.clock.now(), 0))
    session.key("<enter>", stamp_now())
    async with started(tmp_path) as server:
        told = await server.says()
        assert isinstance(told, Served)
        async with opened(told.url) as watched:
            link, digits = watched.page.locator("#link"), watched.page.locator(".digits")
            await digits.wait_for()
            server.process.send_signal(STOP)
            await said(link, lambda words: "No link to the laptop" in words)
            before = await digits.text_content()
            await said(digits, lambda words: words != before)
            session.key("<space>", stamp_now())  # the count-in is called off meanwhile
            server.process.send_signal(GO_ON)
            await said(link, lambda words: "The link is back" in words)
            await watched.page.locator(".board").wait_for()
            assert watched.wrong == []
    session.close()
