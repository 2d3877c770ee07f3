"""Leaving a class, clicking in it, and where its keys go."""

from typing import Any

from classclock.plan.settings.club import Club, Keyboard
from classclock.screens.live.wall.lane_row import LaneRow
from tests.screens.live.seen_in_class import tallies


async def test_leaving_asks_first_and_no_letter_answers(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.press("ctrl+q", "n")
        assert coach.screen.is_current
        assert tallies(coach)["Noor"] == "1"
        await coach.press("escape")
        await coach.wind(2)
        await coach.press("ctrl+c")
        assert coach.screen.is_current
        await coach.press("enter")
        assert coach.pilot.app.return_value == "left"


async def test_a_click_selects_and_taps_only_where_the_club_wants_it(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.pilot.click(LaneRow)
        assert coach.screen.shown.guide.selected == "Ilse"
        assert tallies(coach)["Ilse"] == "0"
    async with open_class(segment=1, club=Club(keyboard=Keyboard(click_taps=True))) as coach:
        await coach.start()
        await coach.wind(30)
        await coach.pilot.click(LaneRow)
        assert tallies(coach)["Ilse"] == "1"


async def test_a_click_on_its_sign_opens_the_card(open_class: Any) -> None:
    async with open_class() as coach:
        row, column = 35, coach.foot().index("! emergency card")
        await coach.pilot.click(offset=(column + 2, row))
        assert coach.screen.overlays.card.display


async def test_a_terminal_that_lost_the_focus_says_that_keys_go_elsewhere(open_class: Any) -> None:
    async with open_class() as coach:
        coach.pilot.app.app_focus = False
        await coach.pilot.pause()
        assert "keys don't reach the clock" in coach.seen()
        coach.pilot.app.app_focus = True
        await coach.pilot.pause()
        assert "keys don't reach the clock" not in coach.seen()
