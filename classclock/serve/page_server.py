"""The server as a whole: a class is followed, a socket is listened on, the address is made anew."""

import asyncio
import ipaddress
import socket
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from uvicorn import Config, Server

from classclock.club.page_secret_file import kept_secret
from classclock.following.follower import Follower
from classclock.following.page_messages import Served, url_host
from classclock.plan.settings.club import Club
from classclock.serve.address import PageAddress, new_secret, own_address
from classclock.serve.app import page_app
from classclock.serve.connections import AT_ONCE, Connection
from classclock.serve.door import Door
from classclock.serve.guard import MOST_HEADERS
from classclock.serve.shown_class import RoomParts, ShownClass
from classclock.serve.viewers import Viewers

_TELLS = 1.0
"""Seconds."""
_LEAVES_IN = 1
"""Seconds that open pages have when it ends."""


class PageServer:
    def __init__(
        self,
        folder: Path,
        club: Club,
        listening: socket.socket,
        told: Callable[[Served], None],
        *,
        follower: Follower | None = None,
        secret: str = "",
    ) -> None:
        """`listening` is bound already; `told` is called whenever something of it changes.

        `secret` is the address's, if somebody has made it.
        """
        self._folder, self._club, self._told = folder, club, told
        self._listening = listening
        host, port = listening.getsockname()[:2]
        self.address = PageAddress(host, port, secret or self._secret())
        self.viewers, self.door = Viewers(), Door(self.tell)
        self.shown = ShownClass(follower or Follower(folder, club), folder, self._show)
        self._class = ""
        app = page_app(self.address, self.viewers, self.door, theme=club.theme, changed=self.tell)
        self._server = Server(
            Config(
                app,
                http=Connection,
                backlog=AT_ONCE,
                ws="none",
                loop="asyncio",
                lifespan="off",
                log_config=None,
                log_level="critical",
                access_log=False,
                proxy_headers=False,
                server_header=False,
                date_header=False,
                h11_max_incomplete_event_size=MOST_HEADERS,
                timeout_graceful_shutdown=_LEAVES_IN,
            )
        )

    async def run(self) -> None:
        """Until it is to `leave`, or a signal ends it.

        Raises: whatever ends the following of a class: no page stands that shows nothing new.
        """
        following = asyncio.create_task(self.shown.run())
        following.add_done_callback(lambda _: self.leave())
        telling = asyncio.create_task(self._tell_again())
        try:
            await self._server.serve(sockets=[self._listening])
        finally:
            telling.cancel()
            if not following.done():
                following.cancel()
            with suppress(asyncio.CancelledError):
                await following

    async def _tell_again(self) -> None:
        """Who hears nothing knows that it hangs."""
        while True:
            self.tell()
            await asyncio.sleep(_TELLS)

    @property
    def is_up(self) -> bool:
        """Whether it answers."""
        return self._server.started

    def leave(self) -> None:
        """Nobody is to be shown anything any more."""
        self.viewers.end_all()
        self._server.should_exit = True

    def let_in(self, digits: str) -> bool:
        """Let the screen that shows these digits see the class; whether one does."""
        return self.door.let_in(digits, self.address.path)

    def tell(self) -> None:
        """Say how it stands."""
        host = self._known_as()
        bare = f"http://{url_host(host)}:{self.address.port}/"
        self._told(Served(self.address.url(host), bare, len(self.viewers), self.door.digits))

    def _known_as(self) -> str:
        bound = ipaddress.ip_address(self.address.host)
        return own_address() if bound.is_unspecified else self.address.host

    def _show(self, parts: RoomParts) -> None:
        """Another class has an address of its own, unless the club wants it otherwise."""
        now = self.shown.journal
        if now and now != self._class:
            if self._class and not self._club.page.same_address:
                self.address.secret = new_secret()
                self.viewers.end_all()
                self.tell()
            self._class = now
        self.viewers.show(parts)

    def _secret(self) -> str:
        fresh = new_secret()
        return kept_secret(self._folder, fresh) if self._club.page.same_address else fresh


def listen(host: str, port: int) -> socket.socket:
    """A socket that is bound there; port 0: any that is free.

    Raises:
        OSError: this machine has no such address, or somebody else has the port.
    """
    family = socket.AF_INET6 if ipaddress.ip_address(host).version == 6 else socket.AF_INET
    bound = socket.socket(family, socket.SOCK_STREAM)
    try:
        bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        bound.bind((host, port))
        bound.listen(AT_ONCE)  # who comes before it answers waits
    except BaseException:
        bound.close()
        raise
    return bound
