"""A clock without a plan, from home and from the command line: the line, who is here, the class."""

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from classclock.plan.formats.segment_base import SegmentBase
from classclock.plan.settings.club import Club
from classclock.screens import flows
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.live.class_screen import ClassScreen
from classclock.screens.pages.clock.clock_screen import ClockScreen
from classclock.screens.pages.home.home_screen import HomeScreen
from classclock.screens.pages.who.who_screen import WhoScreen
from classclock.screens.ways import Ways
from classclock.sound.loudspeaker import SilentLoudspeaker

SIZES = [(60, 18), (120, 36), (213, 60)]


@pytest.mark.parametrize("size", SIZES)
async def test_the_line_gives_a_segment_and_shows_its_forms_while_it_is_typed(
    open_page: Any, size: tuple[int, int]
) -> None:
    async with open_page(ClockScreen(Look()), size) as coach:
        await coach.press(*"rounds")
        assert "rounds 12   for time 15   8 x 20/10   down 5" in coach.seen
        await coach.press("enter")
        assert '"rounds" is no clock: write "rounds 12"' in coach.seen
        await coach.press("space", "7", "tab")
        assert "most reps in 7:00" in coach.seen
        await coach.press("enter")
    assert isinstance(coach.result, SegmentBase)
    assert (coach.result.name, coach.result.counting.counts_by) == ("Rounds 7:00", "reps")


async def test_escape_goes_back_and_a_pasted_line_is_typed(open_page: Any) -> None:
    async with open_page(ClockScreen(Look())) as coach:
        await coach.paste("down\n5")
        assert coach.page.desk.line.text == "down 5"
        await coach.press("escape")
    assert coach.result is None


async def test_home_names_the_key_and_ends_with_the_clock(open_page: Any, tmp_path: Path) -> None:
    home = Ways(Look(), tmp_path).home(Club(name="Line 0 Depot"))
    async with open_page(home, (60, 18)) as coach:
        assert "ctrl+g a clock, no plan" in coach.seen
        await coach.press("ctrl+g")
        assert isinstance(coach.top, ClockScreen)
        await coach.press("escape")
        assert coach.is_at(home)
        await coach.press("ctrl+g", *"down", "space", "5", "enter")
    assert isinstance(coach.result, SegmentBase)
    assert coach.result.name == "Down 5:00"


@pytest.fixture
def quiet(monkeypatch: pytest.MonkeyPatch) -> None:
    """No loudspeaker, and the screen may go dark."""
    silent = "classclock.live.session_opening.Loudspeaker"
    monkeypatch.setattr(silent, lambda **_: SilentLoudspeaker())


Then = Callable[[Pilot[str]], Awaitable[None]]


async def ran(flow: Callable[[ClassclockApp], Awaitable[str]], then: Then) -> str | None:
    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        await then(pilot)
        for _ in range(100):
            if app.return_value is not None:
                break
            await pilot.pause(0.02)
    return app.return_value


async def at(pilot: Pilot[str], screen: type) -> Any:
    """That screen, once it is on."""
    for _ in range(200):
        if isinstance(pilot.app.screen, screen):
            await pilot.pause()
            return pilot.app.screen
        await asyncio.sleep(0.02)
    pytest.fail(f"no {screen.__name__} came, but {pilot.app.screen}")


async def leave(pilot: Pilot[str]) -> None:
    await pilot.press("ctrl+q")
    await pilot.pause()
    await pilot.press("enter")
    await pilot.pause()


@pytest.mark.usefixtures("quiet")
async def test_from_home_what_isnt_scored_counts_in_at_once_and_asks_nobodys_name(
    tmp_path: Path,
) -> None:
    (tmp_path / "club.toml").write_text('name = "Line 0 Depot"\n', encoding="utf-8")

    async def then(pilot: Pilot[str]) -> None:
        await at(pilot, HomeScreen)
        await pilot.press("ctrl+g", *"down", "space", "5", "enter")
        screen = await at(pilot, ClassScreen)
        live = screen.session.live
        assert live.phase in ("count-in", "running"), "it began by itself"
        assert live.record.plan.title == "Open class"
        assert live.record.segment.name == "Down 5:00"
        assert live.record.ends is not None
        await leave(pilot)

    said = await ran(lambda app: flows.home_then_class(app, folder=tmp_path, club=Club()), then)
    assert said is not None
    assert "classclock resume" in said


@pytest.mark.usefixtures("quiet")
async def test_from_home_what_is_scored_asks_who_is_here_and_then_counts_in_at_once(
    tmp_path: Path,
) -> None:
    (tmp_path / "club.toml").write_text('name = "Line 0 Depot"\n', encoding="utf-8")

    async def then(pilot: Pilot[str]) -> None:
        home = await at(pilot, HomeScreen)
        await pilot.press("ctrl+g", *"rounds", "space", "9", "enter")
        who = await at(pilot, WhoScreen)
        await pilot.press("escape")
        again = await at(pilot, HomeScreen)
        assert again is not home, "the coach went back"
        await pilot.press("ctrl+g", *"rounds", "space", "9", "enter")
        assert await at(pilot, WhoScreen) is not who
        await pilot.press(*"Ilse", "enter", *"Bram", "enter", "enter")
        screen = await at(pilot, ClassScreen)
        sheet = screen.session.live.record.sheet
        assert screen.session.live.phase in ("count-in", "running")
        assert [lane.name for lane in sheet.lanes] == ["Ilse", "Bram"]
        await leave(pilot)

    await ran(lambda app: flows.home_then_class(app, folder=tmp_path, club=Club()), then)


@pytest.mark.usefixtures("quiet")
async def test_the_command_lines_people_count_in_as_soon_as_the_line_is_entered(
    tmp_path: Path,
) -> None:
    async def then(pilot: Pilot[str]) -> None:
        page = await at(pilot, ClockScreen)
        assert page.desk.line.text == "8x20/10"
        await pilot.press("tab", "enter")
        screen = await at(pilot, ClassScreen)
        live = screen.session.live
        assert live.phase in ("count-in", "running"), "it began by itself"
        assert [lane.name for lane in live.record.sheet.lanes] == ["Ilse", "Bram"]
        assert live.record.sheet.piece.interval_rule == "total"
        assert live.clock.source.rate == 20
        await leave(pilot)

    await ran(
        lambda app: flows.clock_then_class(
            app,
            folder=tmp_path,
            club=Club(),
            speed=20,
            line="8x20/10",
            names=("Ilse", "Bram"),
        ),
        then,
    )


async def test_leaving_the_line_that_the_command_asks_for_ends_it(tmp_path: Path) -> None:
    async def then(pilot: Pilot[str]) -> None:
        await at(pilot, ClockScreen)
        await pilot.press("escape")

    said = await ran(
        lambda app: flows.clock_then_class(app, folder=tmp_path, club=Club(), speed=1), then
    )
    assert said == ""
    assert not (tmp_path / "journals").exists()
