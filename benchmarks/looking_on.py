"""Those who look on at a page, as a process of their own: `python -m benchmarks.looking_on`.

`--viewers N URL` follow it as a browser does: the class's events, and its clock every five seconds.
`--flood N URL` open so many connections at once, say half a line on each, and begin anew.
"""

import argparse
import asyncio
from contextlib import suppress
from urllib.parse import urlsplit

CLOCK_EVERY = 5
FLOOD_EVERY = 0.5


class Server:
    def __init__(self, url: str) -> None:
        parts = urlsplit(url)
        self.host, self.port, self.path = str(parts.hostname), int(parts.port or 80), parts.path

    async def ask(self, what: str) -> tuple[asyncio.StreamReader, asyncio.StreamWriter]:
        reader, writer = await asyncio.open_connection(self.host, self.port, limit=2**20)
        request = f"GET {self.path}{what} HTTP/1.1\r\nHost: {self.host}:{self.port}\r\n\r\n"
        writer.write(request.encode())
        return reader, writer


async def look_on(server: Server) -> None:
    while True:
        with suppress(OSError):
            reader, writer = await server.ask("events")
            while await reader.read(2**16):
                pass
            writer.close()
        await asyncio.sleep(1)


async def ask_the_time(server: Server) -> None:
    while True:
        with suppress(OSError):
            reader, writer = await server.ask("time")
            await reader.read(2**12)
            writer.close()
        await asyncio.sleep(CLOCK_EVERY)


async def knock(server: Server) -> None:
    while True:
        with suppress(OSError):
            _, writer = await asyncio.open_connection(server.host, server.port)
            writer.write(b"GET / HT")
            await asyncio.sleep(FLOOD_EVERY)
            writer.close()
        await asyncio.sleep(0.01)


async def main(url: str, viewers: int, flood: int) -> None:
    server = Server(url)
    looking = [one(server) for one in (look_on, ask_the_time) for _ in range(viewers)]
    await asyncio.gather(*looking, *(knock(server) for _ in range(flood)))


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("url")
    parser.add_argument("--viewers", type=int, default=0)
    parser.add_argument("--flood", type=int, default=0)
    asked = parser.parse_args()
    with suppress(KeyboardInterrupt):
        asyncio.run(main(asked.url, asked.viewers, asked.flood))
