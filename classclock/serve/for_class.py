"""The process that serves the page of a running class.

Orders come in on stdin, what it has to say goes to stdout. It ends when stdin does.
"""

import asyncio
import os
import sys
from contextlib import suppress
from pathlib import Path
from threading import Thread

from msgspec import MsgspecError

from classclock.club.folder import settings
from classclock.club.settings import read_club
from classclock.following.page_messages import (
    MOST_BYTES,
    LetIn,
    NotServed,
    PageStatus,
    Serve,
    line,
    read_order,
)
from classclock.following.page_words import LACKS_EXTRA, cannot_listen
from classclock.following.priority import give_way
from classclock.plan.settings.club import Club
from classclock.serve.extra import is_installed


def main() -> int:
    give_way()
    try:
        order = read_order(sys.stdin.buffer.readline(MOST_BYTES))
    except MsgspecError:
        return 2
    if not isinstance(order, Serve):
        return 2
    if not is_installed():
        _say(NotServed(LACKS_EXTRA))
        return 1
    return asyncio.run(_serve(order))


async def _serve(order: Serve) -> int:
    from classclock.serve.page_server import PageServer, listen  # noqa: PLC0415  needs the extra

    folder = Path(order.folder)
    club = read_club(settings(folder))[0] or Club()
    try:
        bound = listen(order.host, order.port)
        server = PageServer(folder, club, bound, _say, secret=order.secret)
    except OSError as error:
        _say(NotServed(cannot_listen(order.host, order.port, error)))
        return 1
    loop = asyncio.get_running_loop()

    def hear() -> None:
        for text in iter(lambda: sys.stdin.buffer.readline(MOST_BYTES), b""):
            with suppress(MsgspecError):
                said = read_order(text)
                if isinstance(said, LetIn):
                    loop.call_soon_threadsafe(server.let_in, said.digits)
        loop.call_soon_threadsafe(server.leave)

    Thread(target=hear, daemon=True).start()
    await server.run()
    return 0


def _say(status: PageStatus) -> None:
    with suppress(OSError):  # nobody listens any more: stdin says so too
        sys.stdout.buffer.write(line(status))
        sys.stdout.buffer.flush()


if __name__ == "__main__":
    code = main()
    os._exit(code)  # threads that read files are waited for by nobody
