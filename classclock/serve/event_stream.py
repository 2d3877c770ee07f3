"""Server-sent events (the HTML standard's, 9.2): one way.

A beat comes twice a second, so that a page knows that the link stands.
"""

import asyncio
from collections.abc import AsyncGenerator, Callable, Mapping

from msgspec.json import encode
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

from classclock.following.page_words import spaced
from classclock.serve.door import PATIENCE, Door
from classclock.serve.viewers import Viewers

BEAT = 0.5
"""Seconds."""
SLOWEST = 5.0
"""Seconds for which a page may not read before it is dropped; it comes back by itself."""

Events = AsyncGenerator[bytes, None]


class EventStream(Response):
    """Sends what comes, until it ends, the other end has gone, or doesn't read."""

    def __init__(self, headers: Mapping[str, str], events: Events) -> None:
        super().__init__(headers={**headers, "Content-Type": "text/event-stream; charset=utf-8"})
        del self.headers["content-length"]
        self._events = events

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:  # noqa: ARG002  it is one way
        connection = scope.get("state", {}).get("connection")
        if connection is not None:
            connection.viewing = True
        try:
            async with asyncio.timeout(SLOWEST):
                await send(
                    {"type": "http.response.start", "status": 200, "headers": self.raw_headers}
                )
            async for event in self._events:
                async with asyncio.timeout(SLOWEST):
                    await send({"type": "http.response.body", "body": event, "more_body": True})
                if connection is not None and connection.is_gone:
                    return
            await send({"type": "http.response.body", "body": b"", "more_body": False})
        except TimeoutError:
            if connection is not None:
                connection.drop()
        finally:
            await self._events.aclose()


async def looking_on(viewers: Viewers, changed: Callable[[], None]) -> Events:
    """What a viewer is to be sent, as it comes. `changed` is called when it comes and goes."""
    viewer = viewers.join()
    if viewer is None:
        return
    changed()
    try:
        while not viewer.over:
            shown = viewer.taken()
            yield event("parts", shown) if shown else event("beat", b"0")
            await viewer.wait(BEAT)
        yield event("over", b"0")
    finally:
        viewers.leave(viewer)
        changed()


async def knocking(door: Door) -> Events:
    """The digits to be shown; then where to go, once the coach has let it in."""
    waiting = door.knock()
    if waiting is None:
        return
    try:
        yield event("digits", encode(spaced(waiting.digits)))
        for _ in range(round(PATIENCE / BEAT)):
            done, _pending = await asyncio.wait((waiting.let_in,), timeout=BEAT)
            if done:
                yield event("path", encode(waiting.let_in.result()))
                return
            yield event("beat", b"0")
    finally:
        door.leave(waiting)


def event(name: str, data: bytes) -> bytes:
    """One event; JSON has no line end in it."""
    return b"event: " + name.encode() + b"\ndata: " + data + b"\n\n"
