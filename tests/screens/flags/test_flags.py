"""Flags on loads, read before the class."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime
from typing import Any

import pytest
from textual.pilot import Pilot

from classclock.clock.source import WoundSource
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.flags.flags_drawing import draw_flags, fitting
from classclock.screens.flags.flags_screen import FlagsScreen
from classclock.tally.lane_keys import people_named
from classclock.tally.load_flags import LoadFlag

PLAN = """
title = "Depot strength"
[[segment]]
name   = "Front squat"
format = "interval"
repeat = 1
steps  = [{ work = "1:00" }]
lift   = "front squat"
sets   = [{ reps = 1, percent = 105 }]
score  = "load"
"""
FLAG = "105 kg is above the recorded maximum, 100 kg"


class Before:
    """The screen before a class, and how it ended."""

    def __init__(self, session: Session, pilot: Pilot[str], screen: FlagsScreen) -> None:
        self.session, self.pilot, self.screen = session, pilot, screen
        self.ended: bool | None = None

    @property
    def seen(self) -> str:
        view = self.screen.view
        return plain_text(view.paint(*view.size))


@pytest.fixture
def before(depot: Any) -> Any:
    depot.held("2026-02-10", depot.squats(depot.lifted("Ilse", "80 kg", "90 kg", "100 kg")))

    @asynccontextmanager
    async def opened(*, mirrored: bool) -> AsyncIterator[Before]:
        plan, findings = parse_plan(PLAN, "strength.toml")
        assert plan is not None, findings
        session = open_session(
            PlanFile("strength", PLAN, plan),
            people_named(("Ilse", "Piet")),
            folder=depot.folder,
            club=Club(),
            source=WoundSource(0, wall=datetime.fromisoformat("2026-03-03T18:20:00+01:00")),
            sound=False,
        )
        session.live.plan_loads()
        screen = FlagsScreen(Look(), session.live, mirrored=mirrored)

        async def flow(app: ClassclockApp) -> str:
            there.ended = await app.push_screen_wait(screen)
            return "done"

        app = ClassclockApp(Look(), flow)
        async with app.run_test(size=(120, 36)) as pilot:
            there = Before(session, pilot, screen)
            await pilot.pause()
            yield there
        session.close()

    return opened


async def test_a_mirrored_tv_is_muted_before_names_and_reasons_are_shown(before: Any) -> None:
    async with before(mirrored=True) as there:
        assert "Ilse" not in there.seen
        assert FLAG not in there.seen
        await there.pilot.press("enter")
        assert FLAG in there.seen
        assert there.session.live.record.acknowledged == frozenset()
        await there.pilot.press("enter")
        await there.pilot.pause()
        assert there.session.live.record.acknowledged == {("Ilse", 0, FLAG)}
        assert there.ended is True


async def test_flags_left_for_later_stay_open(before: Any) -> None:
    async with before(mirrored=False) as there:
        assert FLAG in there.seen
        await there.pilot.press("escape")
        await there.pilot.pause()
        assert there.session.live.record.acknowledged == frozenset()
        assert there.ended is True


async def test_leaving_before_the_class_leaves_the_flags_open(before: Any) -> None:
    async with before(mirrored=False) as there:
        await there.pilot.press("ctrl+q")
        await there.pilot.pause()
        assert there.ended is False


def test_only_what_fits_on_the_screen_is_taken_for_read() -> None:
    flags = [LoadFlag(f"p{n}", "p", f"Piet {n}", 0, "Squat", f"{n} kg is a lot") for n in range(9)]
    drawn = plain_text(draw_flags(flags, 58, 18, Look()))
    shown = fitting(18)
    assert f"{shown - 1} kg is a lot" in drawn
    assert f"{shown} kg is a lot" not in drawn
    assert f"{9 - shown} more after these" in drawn
