"""The first run on the screen, and the file that is written."""

from pathlib import Path
from typing import Any

from textual import events

from classclock.club.settings import read_club
from classclock.plan.settings.club import Club, Emergency
from classclock.screens import flows
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.pages.first_run.first_run_screen import FirstRunScreen
from classclock.screens.pages.home.home_screen import HomeScreen


async def test_home_asks_once_and_writes_settings_with_what_each_means(tmp_path: Path) -> None:
    async def flow(app: ClassclockApp) -> str:
        return await flows.home_then_class(app, folder=tmp_path, club=Club())

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, FirstRunScreen)
        await pilot.press("l", "6", "full_stop", "minus", *["enter"] * 5)
        await pilot.pause()
        home = app.screen
        assert isinstance(home, HomeScreen)
        assert home.club.unit == "lb"
        assert "# " in (tmp_path / "club.toml").read_text()
        assert (tmp_path / "club.toml").stat().st_mode & 0o077 == 0
    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, HomeScreen), "it asks once"


async def test_what_is_typed_and_pasted_stands_on_the_card_and_escape_loses_nothing(
    tmp_path: Path,
) -> None:
    async def flow(app: ClassclockApp) -> str:
        return await flows.home_then_class(app, folder=tmp_path, club=Club())

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(60, 18)) as pilot:
        await pilot.pause()
        app.screen.post_message(events.Paste("a question that takes no text"))
        await pilot.press("k", "6", "full_stop", "minus")
        app.screen.post_message(events.Paste('Line 0 "Depot"\n0 Points Row\\'))
        await pilot.pause()
        await pilot.press("enter", "escape", "enter", *["enter"] * 4)
        await pilot.pause()
        home = app.screen
        assert isinstance(home, HomeScreen)
        assert home.club.emergency == Emergency(address='Line 0 "Depot" 0 Points Row\\')
        assert read_club(tmp_path / "club.toml") == (Club(emergency=home.club.emergency), ())
        lacking = "the emergency card lacks the defibrillator, the first-aid kit and"
        assert lacking in " ".join(plain_text(home.view.paint(120, 36)).split())


async def test_putting_it_off_writes_nothing(tmp_path: Path) -> None:
    async def flow(app: ClassclockApp) -> str:
        return await flows.home_then_class(app, folder=tmp_path, club=Club())

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        await pilot.press("l", "escape")
        await pilot.pause()
        assert isinstance(app.screen, HomeScreen)
        assert read_club(tmp_path / "club.toml") == (Club(), ())
        assert not (tmp_path / "club.toml").exists()


async def test_a_folder_that_cannot_be_written_is_said(open_page: Any, tmp_path: Path) -> None:
    (tmp_path / "club").write_text("a file where the folder should be")
    screen = FirstRunScreen(Look(), tmp_path / "club" / "club.toml")
    async with open_page(screen) as coach:
        await coach.press("k", "6", "full_stop", "minus", *["enter"] * 5)
        assert "it can't be written" in coach.seen
        assert coach.top is screen
