"""A class's screen is put together in two steps: the first paint, and all that can wait for it."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.pilot import Pilot

from classclock.clock.source import MS, WoundSource
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_card import EmergencyCard
from classclock.screens.live.class_screen import ClassScreen
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.overlays.keys_overlay import KeysOverlay
from classclock.screens.live.wall.wall_view import WallView
from classclock.tally import commands as cmd
from classclock.tally.lane_keys import people_named
from tests.screens.conftest import OPENED, PLAN


@pytest.fixture
def session(tmp_path: Path) -> Session:
    plan, _ = parse_plan(PLAN, "turntable.toml")
    assert plan is not None
    return open_session(
        PlanFile("turntable", PLAN, plan),
        people_named(("Ilse", "Bram")),
        folder=tmp_path,
        club=Club(),
        source=WoundSource(0, wall=OPENED),
        sound=False,
    )


@asynccontextmanager
async def at_its_first_paint(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> AsyncIterator[Pilot[str]]:
    """The screen as it is before its second step."""

    async def not_yet(_: ClassScreen) -> None: ...

    monkeypatch.setattr(ClassScreen, "_begin", not_yet)
    screen = ClassScreen(session, Look(), keep_awake=False)

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(screen)
        return ""

    async with ClassclockApp(Look(), flow).run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        yield pilot
    session.close()


async def test_a_board_is_painted_before_anything_is_made_that_nobody_sees_yet(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_its_first_paint(session, monkeypatch) as pilot:
        screen = pilot.app.screen
        assert screen.query_one(ClassViews).current == "board"
        assert not screen.query(WallView)
        assert not screen.query(EmergencyCard)


@pytest.mark.parametrize("strokes", [("question_mark",), ("question_mark", "n")])
async def test_a_key_that_comes_so_early_has_the_rest_made_and_is_answered(
    session: Session, monkeypatch: pytest.MonkeyPatch, strokes: tuple[str, ...]
) -> None:
    async with at_its_first_paint(session, monkeypatch) as pilot:
        await pilot.press(*strokes)
        await pilot.pause()
        assert pilot.app.screen.query_one(KeysOverlay).display
        assert len(pilot.app.screen.query(WallView)) == 1


async def test_so_is_a_click_on_the_emergency_card_s_sign(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_its_first_paint(session, monkeypatch) as pilot:
        foot = "".join(segment.text for segment in pilot.app.screen._compositor.render_strips()[-1])
        await pilot.click(offset=(foot.index("! emergency card") + 2, 35))
        await pilot.pause()
        assert pilot.app.screen.query_one(EmergencyCard).display


async def test_a_class_that_runs_already_is_first_painted_as_its_wall(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    session.live.do(cmd.Start())
    assert isinstance(session.source, WoundSource)
    session.source.jump(20_000 * MS)
    async with at_its_first_paint(session, monkeypatch) as pilot:
        assert pilot.app.screen.query_one(ClassViews).current == "wall"
        content = pilot.app.screen.query_one(WallView).content
        assert content is not None
        assert content.clock == "7:50"
