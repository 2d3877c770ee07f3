"""Whoever looks on: what each has yet to be sent, never more than the newest of each part."""

import asyncio

from msgspec.json import encode

from classclock.serve.shown_class import RoomParts

MOST_VIEWERS = 64

Encoded = dict[str, bytes]
"""RoomParts by their names, each as JSON."""


class Viewer:
    """One page. What it hasn't been sent yet waits here: of each part only how it is now."""

    def __init__(self, shown: Encoded) -> None:
        self._waiting = dict(shown)
        self._came = asyncio.Event()
        self._came.set()
        self.over = False
        """Its address holds no longer."""

    def put(self, changed: Encoded) -> None:
        self._waiting.update(changed)
        self._came.set()

    def end(self) -> None:
        self.over = True
        self._came.set()

    def taken(self) -> bytes:
        """All that waits, as one JSON object; empty where nothing does."""
        if not self._waiting:
            return b""
        fields = (encode(name) + b":" + part for name, part in self._waiting.items())
        whole = b"{" + b",".join(fields) + b"}"
        self._waiting.clear()
        self._came.clear()
        return whole

    async def wait(self, seconds: float) -> None:
        """Until there is something to be sent, or so long."""
        try:
            async with asyncio.timeout(seconds):
                await self._came.wait()
        except TimeoutError:
            return


class Viewers:
    """All of them, and what they are shown."""

    def __init__(self) -> None:
        self._shown: Encoded = {}
        self._all: set[Viewer] = set()

    def __len__(self) -> int:
        return len(self._all)

    def show(self, parts: RoomParts) -> None:
        """This is how things stand now: everybody is sent what of it has changed."""
        now = {name: encode(part) for name, part in parts.items()}
        changed = {name: part for name, part in now.items() if self._shown.get(name) != part}
        self._shown = now
        if changed:
            for viewer in self._all:
                viewer.put(changed)

    @property
    def are_full(self) -> bool:
        return len(self._all) >= MOST_VIEWERS

    def join(self) -> Viewer | None:
        """One more; None where there are as many as there may be."""
        if self.are_full:
            return None
        viewer = Viewer(self._shown)
        self._all.add(viewer)
        return viewer

    def leave(self, viewer: Viewer) -> None:
        self._all.discard(viewer)

    def end_all(self) -> None:
        """The address that they came by holds no longer."""
        for viewer in self._all:
            viewer.end()
        self._all.clear()
