"""Nobody in where they don't belong, over a real socket."""

import asyncio
from contextlib import suppress
from pathlib import Path

import pytest

from classclock.clock.source import WoundSource
from classclock.plan.settings.club import Club, Page
from classclock.serve import connections, event_stream
from classclock.serve.viewers import MOST_VIEWERS
from classclock.tally import events as ev
from tests.serve.conftest import HERE, OpenPage, Started, until

NAME = "Ilse"


def answer_of(raw: bytes) -> tuple[bytes, bytes]:
    """The status line, and the body."""
    head, _, body = raw.partition(b"\r\n\r\n")
    return head.partition(b"\r\n")[0], body


async def test_without_the_secret_there_is_nothing_and_every_wrong_one_is_answered_alike(
    open_page: OpenPage, start_class: Started
) -> None:
    session = start_class(NAME)
    async with open_page(session.source) as page:
        secret = page.server.address.secret
        wrong = [
            f"/{secret[:-1]}{'A' if secret[-1] != 'A' else 'B'}/",
            f"/{secret}",
            f"/{secret.swapcase()}/events",
            f"/{'A' * 22}/events",
            f"/{'A' * 22}/time",
            "/events",
            "/time",
            "/../journals/",
            "/%2e%2e/club.toml",
            f"/{secret}/../{secret}/",
            "/wall.html",
            "/nothing.js",
            "//",
        ]
        # As it is written: a client would tidy some of these.
        answers = {await page.raw(page.asks(path)) for path in wrong}
        assert len(answers) == 1
        assert answers.pop().startswith(b"HTTP/1.1 404")
        assert (await page.get(page.path)).status_code == 200
    session.close()


@pytest.mark.parametrize("method", ["HEAD", "POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"])
async def test_nothing_but_get_is_answered_with_the_secret_or_without(
    method: str, open_page: OpenPage
) -> None:
    async with open_page() as page:
        statuses = set()
        for path in ("/", page.path, f"{page.path}events", "/wall.css"):
            status, _ = answer_of(await page.raw(page.asks(path, method)))
            statuses.add(status)
        assert statuses == {b"HTTP/1.1 404 Not Found"}


@pytest.mark.parametrize("host", ["elsewhere.example", "elsewhere.example:{}", "10.0.0.1:{}", ""])
async def test_a_page_from_elsewhere_cant_have_its_name_lead_here(
    host: str, open_page: OpenPage
) -> None:
    async with open_page() as page:
        request = f"GET {page.path} HTTP/1.1\r\nHost: {host.format(page.port)}\r\n\r\n"
        status, body = answer_of(await page.raw(request.encode()))
        assert status == b"HTTP/1.1 404 Not Found"
        assert b"<html" not in body


async def test_what_is_too_large_or_no_http_ends_its_connection_alone(open_page: OpenPage) -> None:
    async with open_page() as page:
        host = f"Host: {HERE}:{page.port}\r\n".encode()
        hostile = [
            b"GET /" + b"a" * 100_000 + b" HTTP/1.1\r\n" + host + b"\r\n",
            b"GET / HTTP/1.1\r\n" + host + b"X: " + b"a" * 100_000 + b"\r\n\r\n",
            b"GET / HTTP/1.1\r\n" + host + b"Content-Length: 9999999\r\n\r\n" + b"a" * 1000,
            b"GET / HTTP/1.1\r\n" + host + b"Transfer-Encoding: chunked\r\n\r\nFFFFFFFF\r\n",
            b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03",
            b"\r\n\r\n\r\n",
            b"GET / HTTP/9.9\r\n\r\n",
        ]
        for request in hostile:
            try:
                status, body = answer_of(await page.raw(request))
            except (ConnectionError, TimeoutError):
                continue
            assert not status.startswith(b"HTTP/1.1 200"), request[:60]
            assert NAME.encode() not in body
        assert (await page.get("/")).status_code == 200


async def test_no_answer_sets_a_cookie_and_each_forbids_all_that_isnt_ours(
    open_page: OpenPage,
) -> None:
    async with open_page() as page:
        for path in ("/", page.path, f"{page.path}time", "/wall.js", "/type.ttf", "/go.wav", "/no"):
            headers = (await page.get(path)).headers
            assert "set-cookie" not in headers
            policy = headers["content-security-policy"]
            assert policy.startswith("default-src 'none'")
            assert "unsafe" not in policy
            assert "http" not in policy
            assert headers["referrer-policy"] == "no-referrer"
            assert headers["cache-control"] == "no-store"
            assert headers["x-content-type-options"] == "nosniff"
            assert "server" not in headers


async def test_neither_addresses_nor_what_is_printed_hold_a_name(
    open_page: OpenPage, start_class: Started, capfd: pytest.CaptureFixture[str]
) -> None:
    session = start_class(NAME)
    async with open_page(session.source) as page, page.looks_on() as looking:
        await looking.until(lambda shown: shown.get("screen") == "board")
        assert all(NAME not in told.url for told in page.told)
    said = capfd.readouterr()
    assert said.out == said.err == ""
    session.close()


async def test_a_slow_reader_is_dropped_alone_and_others_go_on(
    open_page: OpenPage, start_class: Started, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(event_stream, "SLOWEST", 0.2)
    monkeypatch.setattr(event_stream, "BEAT", 0.001)
    session = start_class(*(f"Somebody {n}" for n in range(20)))
    async with open_page(session.source) as page, page.looks_on() as looking:
        await looking.until(lambda shown: shown.get("screen") == "board")
        _, writer = await page.connect(page.asks(f"{page.path}events"))
        transport = writer.transport
        assert isinstance(transport, asyncio.Transport)
        transport.pause_reading()
        large = "x" * 100_000
        number = 0
        await until(lambda: len(page.server.viewers) == 2)
        while len(page.server.viewers) == 2:
            number += 1
            page.server.viewers.show({"screen": "board", "foot": f"{number} {large}"})
            await asyncio.sleep(0.01)
            assert number < 1000, "it is never dropped"
        while f"{number} " not in str(looking.shown.get("foot"))[:10]:
            await looking.next()
    session.close()


async def test_a_flood_of_connections_takes_nobodys_place(
    open_page: OpenPage, start_class: Started
) -> None:
    session = start_class(NAME)
    async with open_page(session.source) as page, page.looks_on() as looking:
        await looking.until(lambda shown: shown.get("screen") == "board")
        flood: list[object] = []
        for _ in range(4):
            flood += await asyncio.gather(*(page.connect(b"GET / HT") for _ in range(100)))
        assert len(page.server._server.server_state.connections) <= connections.MOST + 1
        session.live.record_event(ev.SegmentChosen(session.live.clock.now(), 1))
        await looking.until(lambda shown: "Turntable" in str(shown.get("board")))
    session.close()


async def test_who_asks_nothing_has_their_time(
    open_page: OpenPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(connections, "LONGEST", 0.05)
    async with open_page() as page:
        with suppress(ConnectionError):
            assert await page.raw(b"GET / HTTP/1.1\r\nHost") == b""


async def test_there_are_sixty_four_viewers_and_the_next_waits(open_page: OpenPage) -> None:
    async with open_page() as page:
        request = page.asks(f"{page.path}events")
        opened = await asyncio.gather(*(page.connect(request) for _ in range(MOST_VIEWERS)))
        await until(lambda: len(page.server.viewers) == MOST_VIEWERS)
        assert answer_of(await page.raw(request))[0].startswith(b"HTTP/1.1 503")
        opened[0][1].close()
        await until(lambda: len(page.server.viewers) < MOST_VIEWERS)
        async with page.looks_on() as looking:
            assert (await looking.next())[0] == "parts"


async def test_another_class_has_an_address_of_its_own(
    open_page: OpenPage, start_class: Started
) -> None:
    source = WoundSource()
    first = start_class(NAME, called="first", source=source)
    async with open_page(source) as page, page.looks_on() as looking:
        await looking.until(lambda shown: shown.get("screen") == "board")
        before = page.path
        second = start_class("Bram", called="second", source=source)
        first.close()
        while not looking.over:
            await looking.next()
        assert page.path != before
        assert (await page.get(before)).status_code == 404
        assert page.path in page.url, "the coach is told"
        second.close()


async def test_it_stays_where_the_club_wants_it_to(open_page: OpenPage, tmp_path: Path) -> None:
    club = Club(page=Page(same_address=True))
    async with open_page(club=club) as page:
        before = page.path
    async with open_page(club=club) as page:
        assert page.path == before
    kept = tmp_path / "page-secret"
    assert kept.stat().st_mode & 0o077 == 0
    kept.write_text("../../etc")
    async with open_page(club=club) as page:
        assert page.path != before, "what is no secret of ours is replaced"


async def test_a_screen_that_shows_six_digits_is_let_in_by_them(open_page: OpenPage) -> None:
    async with open_page() as page, page.looks_on("/knock") as tv:
        name, digits = await tv.next()
        assert name == "digits"
        assert page.path not in str(digits)
        assert page.told[-1].waiting == (str(digits).replace(" ", ""),)
        assert not page.server.let_in("12")
        assert page.server.let_in(page.told[-1].waiting[0])
        assert await tv.next() == ("path", page.path)
    assert not page.told[-1].waiting
