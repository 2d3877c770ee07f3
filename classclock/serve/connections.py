"""Connections to the server: how many there may be, and for how long without being a viewer's."""

import asyncio
from typing import Any

from uvicorn.protocols.http.h11_impl import H11Protocol

MOST = 256
"""Connections at once. What comes then takes the place of the oldest that is no viewer's."""
AT_ONCE = 32
"""Connections taken in one go: a flood leaves files to open, and time for those that look on."""
LONGEST = 20.0
"""Seconds for which a connection may be something else than a viewer's."""


class Connection(H11Protocol):
    """One that looks on stays; every other has its time, whatever it does or doesn't ask."""

    viewing = False

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        super().connection_made(transport)
        self.app_state: dict[str, Any] = {**self.app_state, "connection": self}
        self.began = self.loop.time()
        self._time = self.loop.call_later(LONGEST, self._unless_viewing)
        if len(self.connections) > MOST:
            self._make_room()

    def connection_lost(self, exc: Exception | None) -> None:
        self._time.cancel()
        super().connection_lost(exc)

    @property
    def is_gone(self) -> bool:
        return self.transport.is_closing()

    def drop(self) -> None:
        """At once: what wasn't read yet is thrown away."""
        self.transport.abort()

    def _unless_viewing(self) -> None:
        if not self.viewing:
            self.drop()

    def _make_room(self) -> None:
        others = (one for one in self.connections if isinstance(one, Connection))
        idle = [one for one in others if not one.viewing and not one.is_gone]
        min(idle, key=lambda one: one.began, default=self).drop()
