"""A real browser for the page: Chromium, as it is installed here."""

import asyncio
import shutil
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager

import pytest
from playwright.async_api import Browser, ConsoleMessage, Locator, Page, Request, async_playwright

CHROMIUM = shutil.which("chromium")
needs_chromium = pytest.mark.skipif(CHROMIUM is None, reason="no chromium is installed here")
TV, PHONE = (1920, 1080), (390, 844)


@asynccontextmanager
async def browser() -> AsyncIterator[Browser]:
    async with async_playwright() as driver:
        started = await driver.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        try:
            yield started
        finally:
            await started.close()


class Watched:
    """A page, what it asked for, and what it complained of."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.asked: list[str] = []
        self.wrong: list[str] = []
        page.on("request", self._request)
        page.on("console", self._console)
        page.on("pageerror", lambda error: self.wrong.append(str(error)))

    def _request(self, request: Request) -> None:
        self.asked.append(request.url)

    def _console(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self.wrong.append(message.text)


async def said(place: Locator, ready: Callable[[str], bool]) -> str:
    """What stands there once it is so; asked again and again, since the policy forbids `eval`."""
    async with asyncio.timeout(20):
        while not ready(words := await place.text_content() or ""):  # noqa: ASYNC110  see above
            await asyncio.sleep(0.02)
        return words


@asynccontextmanager
async def opened(
    url: str, size: tuple[int, int] = TV, *, calm: bool = False
) -> AsyncIterator[Watched]:
    """This address in a window of this size; `calm`: its system asks for no motion."""
    async with browser() as started:
        page = await started.new_page(
            viewport={"width": size[0], "height": size[1]},
            reduced_motion="reduce" if calm else "no-preference",
        )
        watched = Watched(page)
        await page.goto(url)
        yield watched
