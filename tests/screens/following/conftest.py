"""A class on its screen, and a screen that follows it beside it, under the same wound time."""

from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from classclock.book.files.journal import Anchor
from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.following.follower import Follower
from classclock.plan.settings.club import Club
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.following.following_screen import FollowingScreen


class Room:
    """The screen that follows, as the room sees it."""

    def __init__(self, pilot: Pilot[str], screen: FollowingScreen, real: WoundSource) -> None:
        self.pilot, self.screen, self._real = pilot, screen, real

    async def looks(self, seconds: float = 0.5) -> str:
        """It looks at the files once more, so much later by its own clock; what stands there."""
        self._real.jump(round(seconds * 1000) * MS)
        await self.screen.look_at_class()
        self.screen.show()
        await self.pilot.pause()
        return self.seen()

    def seen(self) -> str:
        """What stands on the screen, but for the foot."""
        return above_the_foot(self.screen)

    def foot(self) -> str:
        return _rows(self.screen)[-1]


def above_the_foot(screen: Any) -> str:
    return "\n".join(_rows(screen)[:-1])


def _rows(screen: Any) -> list[str]:
    rows = screen._compositor.render_strips()
    return ["".join(segment.text for segment in row) for row in rows]


OpenRoom = Callable[..., AbstractAsyncContextManager[Room]]


@pytest.fixture
def open_room(tmp_path: Path) -> OpenRoom:
    """Opens a screen that follows; `source` is the class's."""

    @asynccontextmanager
    async def opened(
        source: WoundSource,
        *,
        size: tuple[int, int] = (120, 36),
        folder: Path = tmp_path,
        club: Club | None = None,
        began: int = 0,
    ) -> AsyncIterator[Room]:
        def clock_of(anchor: Anchor) -> ClassClock:
            return ClassClock(source, began)

        real = WoundSource()
        follower = Follower(
            folder, club or Club(), clock_of=clock_of, real=lambda: real.now() // MS
        )
        screen = FollowingScreen(Look(), follower, folder)
        class_looks = source.on_jump

        def look() -> None:
            class_looks()
            if screen._shown is not None:
                screen._shown.engine.wake()

        source.on_jump = look

        async def flow(app: ClassclockApp) -> str:
            await app.push_screen_wait(screen)
            return "left"

        async with ClassclockApp(Look(), flow).run_test(size=size) as pilot:
            room = Room(pilot, screen, real)
            await pilot.pause()
            yield room

    return opened
