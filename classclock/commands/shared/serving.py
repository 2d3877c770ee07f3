"""The page served from a terminal of its own: its address is printed, digits are typed."""

import asyncio
import sys
from contextlib import suppress
from pathlib import Path
from socket import socket
from threading import Thread

from classclock.commands.shared.exit_status import OK, FindingsError
from classclock.following.page_messages import Served
from classclock.following.page_words import (
    LACKS_EXTRA,
    asks_words,
    cannot_listen,
    nobody_has,
    spaced,
    where_words,
)
from classclock.following.priority import give_way
from classclock.machine.standard_streams import say
from classclock.plan.settings.club import Club
from classclock.serve.extra import is_installed


def serve_wall(folder: Path, club: Club, host: str, port: int | None) -> int:
    """Serve it until ctrl+c. `host` and `port` are the club's where nothing is said.

    Raises:
        FindingsError: the extra isn't installed, or nobody may listen there.
    """
    if not is_installed():
        raise FindingsError(LACKS_EXTRA)
    from classclock.serve.page_server import listen  # noqa: PLC0415  needs the extra

    give_way()
    at = host or club.page.address, club.page.port if port is None else port
    try:
        bound = listen(*at)
    except OSError as error:
        raise FindingsError(cannot_listen(*at, error)) from None
    with bound, suppress(KeyboardInterrupt):  # that is how it is left
        asyncio.run(_served(folder, club, bound))
    return OK


async def _served(folder: Path, club: Club, bound: socket) -> None:
    from classclock.serve.page_server import PageServer  # noqa: PLC0415  see above

    said = _Said()
    server = PageServer(folder, club, bound, said.hear)
    loop = asyncio.get_running_loop()

    def let_in(typed: str) -> None:
        digits = "".join(typed.split())
        if digits and not server.let_in(digits):
            say(nobody_has(digits))

    def read() -> None:
        for typed in sys.stdin:
            loop.call_soon_threadsafe(let_in, typed)

    if sys.stdin is not None:
        Thread(target=read, daemon=True).start()
    await server.run()


class _Said:
    """Says what has changed, once."""

    def __init__(self) -> None:
        self._url = ""
        self._waiting: frozenset[str] = frozenset()

    def hear(self, served: Served) -> None:
        if served.url != self._url:
            self._url = served.url
            say(served.url, *where_words(served))
        for digits in served.waiting:
            if digits not in self._waiting:
                say(asks_words(spaced(digits)))
        self._waiting = frozenset(served.waiting)
