"""Home on the screen: a plan is found and opened, a class rejoined, the card filled in."""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from classclock.clock.source import WoundSource
from classclock.club.settings import read_club
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club, Emergency
from classclock.screens.canvas.look import Look
from classclock.screens.pages.home.home_screen import HomeScreen
from classclock.screens.ways import Ways

MakeHome = Callable[[], HomeScreen]


async def test_enter_opens_the_plan_that_typing_found(
    open_page: Any, make_home: MakeHome, plans: Path
) -> None:
    async with open_page(make_home()) as coach:
        await coach.press(*"for all", "enter")
    assert isinstance(coach.result, PlanFile)
    assert coach.result.name == "a-sandbox"
    assert coach.result.text == (plans / "a-sandbox.toml").read_text()


async def test_a_title_that_begins_so_is_opened_before_one_that_has_it_in_the_middle(
    open_page: Any, make_home: MakeHome
) -> None:
    async with open_page(make_home()) as coach:
        await coach.press(*"tur", "enter")  # Last Tram Saturday stands before it in the folder
    assert isinstance(coach.result, PlanFile)
    assert coach.result.plan.title == "Turntable Tuesday"


async def test_a_class_that_was_cut_off_stands_first_and_enter_rejoins_it(
    open_page: Any, make_home: MakeHome, source: WoundSource, cut_off: Path
) -> None:
    home = make_home()
    began = source.wall() - timedelta(minutes=10)
    title = f"a-sandbox, class of {began:%H:%M}, cut off at {began:%H:%M}"
    assert home.desk.entries[0].title == title
    async with open_page(home) as coach:
        await coach.press("enter")
    assert coach.result == cut_off


async def test_a_class_of_a_later_version_says_so_and_waits_for_an_update(
    open_page: Any, make_home: MakeHome, cut_off_later: Path
) -> None:
    async with open_page(make_home()) as coach:
        await coach.press("enter")
        assert coach.top is coach.page
        assert f"! {cut_off_later.name}" in coach.seen
        assert '"Sneezed" was written by a later classclock: update this one' in coach.seen
        said = f"{cut_off_later.name} can't be opened: update classclock, then classclock again"
        assert said in coach.seen


async def test_after_half_a_day_a_class_is_no_longer_offered(
    make_home: MakeHome, source: WoundSource, cut_off: Path
) -> None:
    source.jump(12 * 3600 * 10**9)
    assert make_home().desk.cut_off == ()


async def test_a_plan_with_a_finding_shows_it_and_can_not_be_opened(
    open_page: Any, make_home: MakeHome, plans: Path
) -> None:
    async with open_page(make_home()) as coach:
        await coach.press("down", "enter")
        assert coach.top is coach.page
        assert "line 5" in coach.seen
        assert "b-broken.toml can't be opened" in coach.seen


async def test_a_plan_can_be_opened_before_all_are_read(
    open_page: Any, make_home: MakeHome, plans: Path
) -> None:
    home = make_home()
    home.paths, later = (), home.paths
    async with open_page(home) as coach:
        home.paths = later
        await coach.press("enter")
    assert isinstance(coach.result, PlanFile)


async def test_page_down_and_end_go_further_than_down(
    open_page: Any, make_home: MakeHome, plans: Path
) -> None:
    async with open_page(make_home()) as coach:
        await coach.press("end")
        assert coach.page.desk.highlighted is coach.page.desk.entries[-1]
        await coach.press("pageup")
        assert coach.page.desk.highlighted is coach.page.desk.entries[0]


@pytest.mark.parametrize("keys", [["escape"], ["ctrl+q"], ["ctrl+c"], ["x", "ctrl+q"]])
async def test_leaving_chooses_nothing(
    keys: list[str], open_page: Any, make_home: MakeHome
) -> None:
    async with open_page(make_home()) as coach:
        await coach.press(*keys)
    assert coach.result is None
    assert coach.pilot.app.return_value == "done"


async def test_f2_asks_what_the_emergency_card_lacks_and_home_stops_saying_so(
    open_page: Any, tmp_path: Path
) -> None:
    path = tmp_path / "club.toml"
    path.write_text('[emergency]\ndefibrillator = "hall"\nfirst_aid = "desk"\ncall = "112"\n')
    home = Ways(Look(), tmp_path).home(read_club(path)[0] or Club())
    async with open_page(home, (60, 18)) as coach:
        assert "! the emergency card lacks the address: F2 fills it in" in coach.seen
        await coach.press("f2", *"0 Points Row", *["enter"] * 4)
        assert coach.top is home
        assert "emergency card lacks" not in coach.seen
        assert home.club.emergency.address == "0 Points Row"
        assert read_club(path) == (home.club, ())
        await coach.press("f2", "escape")
        assert coach.top is home


async def test_f2_asks_all_of_the_first_run_where_that_was_put_off(
    open_page: Any, make_home: MakeHome, tmp_path: Path
) -> None:
    home = make_home()
    async with open_page(home) as coach:
        assert "! the emergency card is not filled in: F2 fills it in" in coach.seen
        await coach.press("f2", "l", "6", "full_stop", "minus", *"0 Points Row", *["enter"] * 5)
        await coach.read()
        assert coach.top is home
        assert home.club == read_club(tmp_path / "club.toml")[0]
        assert home.club.unit == "lb"
        assert home.club.emergency == Emergency(address="0 Points Row")


async def test_leaving_the_first_run_from_home_leaves_classclock(
    open_page: Any, make_home: MakeHome
) -> None:
    async with open_page(make_home()) as coach:
        await coach.press("f2", "ctrl+q")
        assert coach.pilot.app.return_value == "done"
        assert coach.result is None
