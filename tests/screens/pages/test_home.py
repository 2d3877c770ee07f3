"""Home, on the screen and without one."""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest
from textual.pilot import Pilot

from classclock.clock.source import WoundSource
from classclock.club.plan_files import plan_paths, read_plan
from classclock.club.settings import read_club
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club, Emergency
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.pages.home.home_desk import HomeDesk
from classclock.screens.pages.home.home_drawing import draw_home
from classclock.screens.pages.home.home_list import HomeEntry, plan_entry
from classclock.screens.pages.home.home_screen import HomeChoice, HomeScreen
from classclock.screens.ways import Ways
from classclock.tally.lane_keys import people_named
from classclock.units.printable import printable
from classclock.wall.emergency_words import lacks

GOOD = """
title = "{title}"
[[segment]]
name = "Sandbox"
format = "rounds-in-time"
time = "8:00"
count_in = "0:10"
  [[segment.station]]
  movement = "row"
  reps = 5
"""
BAD = '\n[[segment]]\nname = "Sandbox"\nformat = "countdown"\ntime = 8:00\n'


class Shown:
    def __init__(self, folder: Path, source: WoundSource) -> None:
        self.chosen: HomeChoice | None = None
        self.screen = HomeScreen(
            Look(),
            folder=folder,
            club=Club(name="Line 0 Depot"),
            now=source.wall(),
            opens=Ways(Look(), folder),
        )

    async def flow(self, app: ClassclockApp) -> str:
        self.chosen = await app.push_screen_wait(self.screen)
        return "done"

    async def read(self, pilot: Pilot[str]) -> None:
        """Wait until its files are read."""
        await pilot.pause()
        reading = [worker for worker in self.screen.workers if worker.node is self.screen]
        if reading:
            await self.screen.workers.wait_for_complete(reading)

    @property
    def picture(self) -> str:
        view = self.screen.view
        return plain_text(view.paint(*view.size))


@pytest.fixture
def plans(tmp_path: Path) -> Path:
    folder = tmp_path / "plans"
    folder.mkdir()
    (folder / "a-sandbox.toml").write_text(GOOD.format(title="Sandbox for all"))
    (folder / "b-broken.toml").write_text(BAD)
    return folder


@pytest.fixture
def source() -> WoundSource:
    return WoundSource()


@pytest.fixture
def cut_off(tmp_path: Path, plans: Path, source: WoundSource) -> Path:
    """The journal of a class whose process was killed ten minutes ago."""
    path = plans / "a-sandbox.toml"
    plan, _ = read_plan(path)
    assert plan is not None
    session = open_session(
        PlanFile("a-sandbox", path.read_text(), plan),
        people_named(["Ilse"]),
        folder=tmp_path,
        club=Club(),
        source=source,
        sound=False,
    )
    session.close()
    source.jump(int(timedelta(minutes=10).total_seconds()) * 10**9)
    return session.journal.path


async def open_home(shown: Shown, *keys: str) -> None:
    app = ClassclockApp(Look(), shown.flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await shown.read(pilot)
        await pilot.press(*keys)
        await pilot.pause()


async def test_enter_opens_the_plan_that_typing_found(
    tmp_path: Path, plans: Path, source: WoundSource
) -> None:
    shown = Shown(tmp_path, source)
    await open_home(shown, *"for all", "enter")
    assert isinstance(shown.chosen, PlanFile)
    assert shown.chosen.name == "a-sandbox"
    assert shown.chosen.text == (plans / "a-sandbox.toml").read_text()


async def test_a_title_that_begins_so_is_opened_before_one_that_has_it_in_the_middle(
    tmp_path: Path, source: WoundSource
) -> None:
    shown = Shown(tmp_path, source)
    await open_home(shown, *"tur", "enter")  # Last Tram Saturday stands before it in the folder
    assert isinstance(shown.chosen, PlanFile)
    assert shown.chosen.plan.title == "Turntable Tuesday"


async def test_a_class_that_was_cut_off_stands_first_and_enter_rejoins_it(
    tmp_path: Path, plans: Path, source: WoundSource, cut_off: Path
) -> None:
    shown = Shown(tmp_path, source)
    first = shown.screen.desk.entries[0]
    began = source.wall() - timedelta(minutes=10)
    assert first.title == f"a-sandbox, class of {began:%H:%M}, cut off at {began:%H:%M}"
    await open_home(shown, "enter")
    assert shown.chosen == cut_off


async def test_after_half_a_day_a_class_is_no_longer_offered(
    tmp_path: Path, plans: Path, source: WoundSource, cut_off: Path
) -> None:
    source.jump(12 * 3600 * 10**9)
    assert Shown(tmp_path, source).screen.desk.cut_off == ()


async def test_a_plan_with_a_finding_shows_it_and_can_not_be_opened(
    tmp_path: Path, plans: Path, source: WoundSource
) -> None:
    shown = Shown(tmp_path, source)
    app = ClassclockApp(Look(), shown.flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await shown.read(pilot)
        await pilot.press("down", "enter")
        await pilot.pause()
        assert app.screen is shown.screen
        assert "line 5" in shown.picture
        assert "b-broken.toml can't be opened" in shown.picture


async def test_a_plan_can_be_opened_before_all_are_read(
    tmp_path: Path, plans: Path, source: WoundSource
) -> None:
    shown = Shown(tmp_path, source)
    app = ClassclockApp(Look(), shown.flow)
    shown.screen.paths, later = (), shown.screen.paths
    async with app.run_test() as pilot:
        shown.screen.paths = later
        await pilot.press("enter")
        await pilot.pause()
    assert isinstance(shown.chosen, PlanFile)


@pytest.mark.parametrize("keys", [["escape"], ["ctrl+q"], ["ctrl+c"], ["x", "ctrl+q"]])
async def test_leaving_chooses_nothing(
    keys: list[str], tmp_path: Path, plans: Path, source: WoundSource
) -> None:
    shown = Shown(tmp_path, source)
    app = ClassclockApp(Look(), shown.flow)
    async with app.run_test() as pilot:
        await pilot.press(*keys)
        await pilot.pause()
    assert shown.chosen is None
    assert app.return_value == "done"


def test_each_plan_says_how_long_it_lasts_and_what_is_scored(plans: Path) -> None:
    entry = plan_entry(plans / "a-sandbox.toml", "kg")
    assert (entry.title, entry.words, entry.length) == ("Sandbox for all", "Sandbox", "8:10")


def test_the_club_s_own_plans_come_before_the_samples_and_none_comes_twice(
    tmp_path: Path,
) -> None:
    own = tmp_path / "plans"
    own.mkdir()
    (own / "mine.toml").write_text(GOOD.format(title="Mine"))
    paths = plan_paths(tmp_path)
    assert paths[0].name == "mine.toml"
    assert len(paths) == len({path.resolve() for path in paths})
    assert "turntable.toml" in [path.name for path in paths]


@pytest.mark.parametrize("size", [(60, 18), (120, 36), (240, 70)])
@pytest.mark.parametrize("count", [0, 1, 200])
def test_home_fills_every_size_and_keeps_what_is_highlighted_in_view(
    size: tuple[int, int], count: int, check_filled: Callable[..., None]
) -> None:
    plans = [
        HomeEntry(printable(f"[b]Line {n} 🚋\u202e"), "x" * 300, "1:00:00") for n in range(count)
    ]
    desk = HomeDesk((), plans, "\x1b[31mLine 0 Depot", lacks(Emergency(call="112")))
    for _ in range(count * 2 // 3):
        desk.sign("<down>")
    drawn = draw_home(desk, *size, Look())
    check_filled(drawn, *size)
    assert count == 0 or f"Line {count * 2 // 3} " in plain_text(drawn)


async def test_f2_asks_what_the_emergency_card_lacks_and_home_stops_saying_so(
    tmp_path: Path, plans: Path, source: WoundSource
) -> None:
    path = tmp_path / "club.toml"
    path.write_text('[emergency]\ndefibrillator = "hall"\nfirst_aid = "desk"\ncall = "112"\n')
    shown = Shown(tmp_path, source)
    shown.screen = Ways(Look(), tmp_path).home(read_club(path)[0] or Club())
    async with ClassclockApp(Look(), shown.flow).run_test(size=(60, 18)) as pilot:
        await shown.read(pilot)
        assert "! the emergency card lacks the address: F2 fills it in" in shown.picture
        await pilot.press("f2", *"0 Points Row", *["enter"] * 4)
        await pilot.pause()
        assert pilot.app.screen is shown.screen
        assert "emergency card lacks" not in shown.picture
        assert shown.screen.club.emergency.address == "0 Points Row"
        assert read_club(path) == (shown.screen.club, ())
        await pilot.press("f2", "escape")
        await pilot.pause()
        assert pilot.app.screen is shown.screen


async def test_f2_asks_all_of_the_first_run_where_that_was_put_off(
    tmp_path: Path, plans: Path, source: WoundSource
) -> None:
    shown = Shown(tmp_path, source)
    async with ClassclockApp(Look(), shown.flow).run_test(size=(120, 36)) as pilot:
        await shown.read(pilot)
        assert "! the emergency card is not filled in: F2 fills it in" in shown.picture
        await pilot.press("f2", "l", "6", "full_stop", "minus", *"0 Points Row", *["enter"] * 5)
        await shown.read(pilot)
        assert pilot.app.screen is shown.screen
        assert shown.screen.club == read_club(tmp_path / "club.toml")[0]
        assert shown.screen.club.unit == "lb"
        assert shown.screen.club.emergency == Emergency(address="0 Points Row")


async def test_leaving_the_first_run_from_home_leaves_classclock(
    tmp_path: Path, plans: Path, source: WoundSource
) -> None:
    shown = Shown(tmp_path, source)
    app = ClassclockApp(Look(), shown.flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await shown.read(pilot)
        await pilot.press("f2", "ctrl+q")
        await pilot.pause()
        assert app.return_value == "done"
        assert shown.chosen is None
