"""A server of the page on a socket of its own, and a class that it shows."""

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager, suppress
from pathlib import Path
from typing import Any

import httpx
import pytest
from msgspec.json import decode

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import TimeSource, WoundSource
from classclock.following.follower import Follower
from classclock.following.page_messages import Served
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.serve.page_server import PageServer, listen
from classclock.tally.lane_keys import people_named
from tests.following.conftest import PLAN, plan_of

HERE = "127.0.0.1"


async def until(ready: Callable[[], object]) -> None:
    """Let all else go on until it is so."""
    async with asyncio.timeout(20):
        while not ready():  # noqa: ASYNC110  a server tells nobody what it has done
            await asyncio.sleep(0.002)


class Page:
    """The server, what the coach is told of it, and whoever asks it."""

    def __init__(self, server: PageServer, told: list[Served]) -> None:
        self.server, self.told = server, told
        self._opened: list[asyncio.StreamWriter] = []

    @property
    def port(self) -> int:
        return self.server.address.port

    @property
    def path(self) -> str:
        return self.server.address.path

    @property
    def url(self) -> str:
        return self.told[-1].url

    async def get(self, path: str, **asked: object) -> httpx.Response:
        async with httpx.AsyncClient(base_url=f"http://{HERE}:{self.port}") as client:
            return await client.get(path, **asked)  # type: ignore[arg-type]

    async def connect(
        self, request: bytes = b""
    ) -> tuple[asyncio.StreamReader, asyncio.StreamWriter]:
        """A connection on which this is said; it is closed with the server."""
        reader, writer = await asyncio.open_connection(HERE, self.port, limit=2**20)
        self._opened.append(writer)
        writer.write(request)
        return reader, writer

    async def raw(self, request: bytes) -> bytes:
        """Whatever is answered to these bytes until the connection closes."""
        reader, _ = await self.connect(request)
        return await asyncio.wait_for(reader.read(), 10)

    async def hang_up(self) -> None:
        for writer in self._opened:
            writer.close()
            with suppress(OSError):
                await writer.wait_closed()

    def asks(self, path: str, method: str = "GET") -> bytes:
        return f"{method} {path} HTTP/1.1\r\nHost: {HERE}:{self.port}\r\n\r\n".encode()

    @asynccontextmanager
    async def looks_on(self, path: str | None = None) -> AsyncIterator["Looking"]:
        """Somebody who opened the page, by its stream of events alone."""
        reader, writer = await self.connect(self.asks(path or f"{self.path}events"))
        try:
            yield Looking(reader)
        finally:
            writer.close()


class Looking:
    """What has come to it so far."""

    def __init__(self, reader: asyncio.StreamReader) -> None:
        self._reader = reader
        self.shown: dict[str, Any] = {}
        self.over = False

    async def next(self) -> tuple[str, object]:
        """The next event but for a beat."""
        while True:
            line = (await asyncio.wait_for(self._reader.readline(), 10)).decode()
            assert line, "the stream has ended"
            name = line.removeprefix("event: ").strip() if line.startswith("event: ") else ""
            if name in ("", "beat"):
                continue
            data = decode((await self._reader.readline()).removeprefix(b"data: "))
            if name == "parts" and isinstance(data, dict):
                self.shown |= data
            self.over |= name == "over"
            return name, data

    async def until(self, ready: Callable[[dict[str, Any]], object]) -> dict[str, Any]:
        async with asyncio.timeout(10):
            while not ready(self.shown):
                await self.next()
        return self.shown


OpenPage = Callable[..., AbstractAsyncContextManager[Page]]
Started = Callable[..., Session]


@pytest.fixture
def start_class(tmp_path: Path) -> Started:
    """A class in the folder; whoever starts one closes it."""

    def started(
        *names: str,
        plan: str = PLAN,
        called: str = "turntable",
        source: TimeSource | None = None,
        club: Club | None = None,
    ) -> Session:
        return open_session(
            PlanFile(called, plan, plan_of(plan)),
            people_named(names or ("Ilse", "Bram")),
            folder=tmp_path,
            club=club or Club(),
            source=source or WoundSource(),
            sound=False,
        )

    return started


@pytest.fixture
def open_page(tmp_path: Path) -> OpenPage:
    """The page of the class in the folder; `source` is the class's, if its time is wound."""

    @asynccontextmanager
    async def opened(
        source: TimeSource | None = None, *, club: Club | None = None, host: str = HERE
    ) -> AsyncIterator[Page]:
        club = club or Club()
        follower = (
            Follower(tmp_path, club)
            if source is None
            else Follower(tmp_path, club, clock_of=lambda _: ClassClock(source, 0))
        )
        told: list[Served] = []
        bound = listen(host, 0)
        server = PageServer(tmp_path, club, bound, told.append, follower=follower)
        running = asyncio.create_task(server.run())
        await until(lambda: server.is_up)
        page = Page(server, told)
        try:
            yield page
        finally:
            await page.hang_up()
            server.leave()
            await running
            bound.close()

    return opened
