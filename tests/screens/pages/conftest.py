"""What tests of pages share: a page on the screen, in front of a coach."""

from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from pathlib import Path
from typing import Any

import pytest
from textual import events
from textual.pilot import Pilot
from textual.screen import Screen

from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look


class Opened:
    """A page, the keys that are struck at it, and what it ended with."""

    def __init__(self, page: Any) -> None:
        self.page = page
        self.result: Any = None
        self.pilot: Pilot[str]

    @property
    def top(self) -> Any:
        """The page that has the keys now."""
        return self.pilot.app.screen

    def is_at(self, page: Screen[Any]) -> bool:
        return self.pilot.app.screen is page

    @property
    def seen(self) -> str:
        """What stands on the page, wherever the coach is now."""
        view = self.page.view
        return plain_text(view.paint(*view.size))

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.pilot.pause()

    async def type(self, text: str) -> None:
        """Type this, then enter."""
        named = {" ": "space", ":": "colon", ",": "comma", "%": "percent_sign", ";": "semicolon"}
        await self.press(*(named.get(sign, sign) for sign in text), "enter")

    async def paste(self, text: str) -> None:
        self.top.post_message(events.Paste(text))
        await self.pilot.pause()

    async def read(self) -> None:
        """Wait until the page that has the keys has read its files."""
        await self.pilot.pause()
        page: Screen[Any] = self.top
        reading = [worker for worker in page.workers if worker.node is page]
        if reading:
            await page.workers.wait_for_complete(reading)
        await self.pilot.pause()


OpenPage = Callable[..., AbstractAsyncContextManager[Opened]]


@pytest.fixture
def open_page() -> OpenPage:
    """Opens a page in a window of this size, and waits until it has read its files."""

    @asynccontextmanager
    async def opened(page: Any, size: tuple[int, int] = (120, 36)) -> AsyncIterator[Opened]:
        coach = Opened(page)

        async def flow(app: ClassclockApp) -> str:
            coach.result = await app.push_screen_wait(page)
            return "done"

        async with ClassclockApp(Look(), flow).run_test(size=size) as pilot:
            coach.pilot = pilot
            await coach.read()
            yield coach

    return opened


@pytest.fixture
def two_classes(depot: Any, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A club's folder after two classes: Ilse better each time, Bram modified."""
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    for day, rounds in (("2026-11-03", 6), ("2026-11-17", 7)):
        lanes = (
            depot.rounds("Ilse", rounds, 4),
            depot.rounds("Bram", rounds, 2, modification="step-up"),
        )
        lifts = depot.lifted("Ilse", "60 kg", f"{60 + rounds} kg")
        depot.held(day, depot.turntable(*lanes), depot.squats(lifts))
    folder: Path = depot.folder
    return folder
