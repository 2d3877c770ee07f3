"""What tests of screens share."""

from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest
from rich.cells import cell_len
from textual.pilot import Pilot

from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.machine.battery import Battery
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club, Emergency
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.live.class_screen import ClassScreen
from classclock.sound.loudspeaker import SilentLoudspeaker
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Person
from classclock.units.printable import can_be_shown

OPENED = datetime(2026, 3, 3, 18, 20, tzinfo=timezone(timedelta(hours=1)))
ENDS = "2026-03-03T19:00:00+01:00"
CARD = Emergency(address="0 Points Row", defibrillator="hall", first_aid="desk", call="112")
"""Filled in, so that nothing has to be said of it."""
PLAN = """
title = "Turntable Tuesday"

[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
lines = ["easy row", "arm circles"]

[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"
caution = ["Step down from the box, don't jump."]

  [[segment.station]]
  movement = "box step-over"
  reps = 6
  standard = "both feet on the box"
  options = ["lower box", { name = "step-up", reps = 4 }]

  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
  options = ["chair stand"]
"""
"""A warm-up and a piece of our own."""


@pytest.fixture(scope="session")
def check_filled() -> Callable[[Drawing, int, int], None]:
    """A drawing fills its box to the last cell, and nothing in it moves the cursor."""

    def check(drawing: Drawing, columns: int, rows: int) -> None:
        assert len(drawing) == rows
        for row in drawing:
            text = "".join(segment.text for segment in row)
            assert cell_len(text) == columns, text
            assert can_be_shown(text), text

    return check


class Coach:
    """A class on its screen, in front of a coach whose time is wound by hand."""

    def __init__(self, session: Session, source: WoundSource, screen: ClassScreen) -> None:
        self.session = session
        self.source = source
        self.screen = screen
        self.pilot: Pilot[str]

    @property
    def live(self) -> LiveClass:
        return self.session.live

    @property
    def speaker(self) -> SilentLoudspeaker:
        assert isinstance(self.session.speaker, SilentLoudspeaker)
        return self.session.speaker

    async def wind(self, seconds: float) -> None:
        self.source.jump(round(seconds * 1000) * MS)
        await self.pilot.pause()

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.pilot.pause()

    async def start(self) -> None:
        """Enter, and the count-in of ten seconds."""
        await self.press("enter")
        await self.wind(10)

    async def reads(self, text: str, seconds: float = 30) -> None:
        """Time goes on until this stands in the last row."""
        for _ in range(round(seconds * 2)):
            if text in self.foot():
                return
            await self.wind(0.5)
        pytest.fail(f"{text!r} was never said; the last row:\n{self.foot()}")

    def foot(self) -> str:
        """The last row."""
        return self.seen().split("\n")[-1]

    def seen(self) -> str:
        """What stands on the screen in terminal text."""
        rows = self.screen._compositor.render_strips()
        return "\n".join("".join(segment.text for segment in row) for row in rows)


@pytest.fixture(autouse=True)
def _no_disk_is_slow(monkeypatch: pytest.MonkeyPatch) -> None:
    """That of a busy machine is, and the foot would say so."""
    monkeypatch.setattr("classclock.book.files.kept_lines.SLOW", 60.0)


OpenClass = Callable[..., AbstractAsyncContextManager[Coach]]


@pytest.fixture
def open_class(tmp_path: Path) -> OpenClass:
    """Opens a class on its screen: a plan, who is there, how large the window is."""

    @asynccontextmanager
    async def opened(
        plan: str = PLAN,
        *,
        names: tuple[str, ...] = ("Ilse", "Bram", "Noor"),
        people: tuple[Person, ...] | None = None,
        size: tuple[int, int] = (120, 36),
        club: Club | None = None,
        segment: int = 0,
        folder: Path = tmp_path,
        look: Look | None = None,
        source: WoundSource | None = None,
        notice: str = "",
    ) -> AsyncIterator[Coach]:
        read, findings = parse_plan(plan, "turntable.toml")
        assert read is not None, findings
        source = source or WoundSource(0, wall=OPENED)
        session = open_session(
            PlanFile("turntable", plan, read),
            people or people_named(names),
            folder=folder,
            club=club or Club(emergency=CARD),
            source=source,
            ends=ENDS,
            sound=False,
        )
        paint = look or Look()
        battery = Battery(lambda: "")
        screen = ClassScreen(session, paint, notice=notice, battery=battery, keep_awake=False)
        coach = Coach(session, source, screen)

        async def flow(app: ClassclockApp) -> str:
            await app.push_screen_wait(coach.screen)
            return "left"

        async with ClassclockApp(paint, flow).run_test(size=size) as pilot:
            coach.pilot = pilot
            await pilot.pause()
            await coach.screen.load()
            await pilot.pause()
            for _ in range(segment):
                await coach.press("down")
                await coach.wind(2)
            yield coach
        session.close()

    return opened
