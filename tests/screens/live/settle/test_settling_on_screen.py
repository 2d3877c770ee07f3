"""The settle on its screen: what is asked stands there large, and keys answer it."""

import re
from collections.abc import Callable
from contextlib import asynccontextmanager
from typing import Any

import pytest

from classclock.screens.live.overlays.pending_sign import PendingSign
from classclock.screens.live.settle.settle_view import SettleView

NAMES = ("Nadia", "Piet", "Zoë")


@pytest.fixture
def at_the_settle(open_class: Callable[..., Any]) -> Callable[..., Any]:
    """Opens a class of which the piece is over: one round for everybody, no odd reps."""

    @asynccontextmanager
    async def opened(**where: Any) -> Any:
        async with open_class(names=NAMES, segment=1, **where) as coach:
            await coach.start()
            await coach.wind(60)
            await coach.press("n", "p", "z")
            await coach.wind(904)
            yield coach

    return opened


def question(coach: Any) -> str:
    page = coach.screen.query_one(SettleView).page
    return page.question if page is not None else ""


@pytest.mark.parametrize("size", [(60, 18), (120, 36), (213, 60)])
async def test_numbers_answer_one_after_the_other_and_enter_goes_on(
    at_the_settle: Callable[..., Any], size: tuple[int, int]
) -> None:
    async with at_the_settle(size=size) as coach:
        assert question(coach) == "Nadia: odd reps?"
        assert "12 enter: 12 odd reps  enter: none  * enter: all stand" in coach.seen()
        assert "then Piet: odd reps?; Zoë: odd reps?" in coach.seen()
        await coach.press("5", "enter")
        assert question(coach) == "Piet: odd reps?"
        await coach.press("7", "enter")
        assert question(coach) == "Zoë: odd reps?"
        await coach.wind(2)
        await coach.press("enter")
        assert question(coach) == ""
        assert "enter: settle and go on" in coach.seen()
        tallies = coach.live.record.sheet.tallies.values()
        assert [tally.odd for tally in tallies] == [5, 7, 0]


@pytest.mark.parametrize("size", [(60, 18), (120, 36)])
async def test_what_is_typed_says_what_enter_would_do_with_it(
    at_the_settle: Callable[..., Any], size: tuple[int, int]
) -> None:
    async with at_the_settle(size=size) as coach:
        await coach.press("5")
        assert "enter: Nadia, 5 odd reps" in coach.seen()
        await coach.press("escape", "minus", "3")
        assert "enter takes back Nadia, a tap at 1:00" in coach.seen()
        await coach.press("enter")
        assert not coach.screen.query_one(PendingSign).display
        assert len(coach.live.record.sheet.tallies["Nadia"].rounds) == 0


async def test_while_the_clock_runs_too(open_class: Callable[..., Any]) -> None:
    async with open_class(names=NAMES, segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("n", "p")
        await coach.press("minus", "2")
        assert "enter takes back Nadia, a tap at 1:00" in coach.seen()
        await coach.press("backspace", "9")
        assert "nothing: 2 entries yet" in coach.seen()


async def test_after_a_piece_a_stop_asks_whether_they_leave(
    at_the_settle: Callable[..., Any],
) -> None:
    async with at_the_settle(size=(60, 18)) as coach:
        await coach.press("full_stop", "p")
        assert "1: stopped in it   2: leaves now   escape: neither" in coach.seen()
        await coach.press("1")
        assert coach.live.record.sheet.tallies["Piet"].stopped is not None


MANY = ("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell", "Anouk", "Cato")


def page(coach: Any) -> str:
    """Which page of how many, as the screen says it."""
    found = re.search(r"\b(\d of \d)\b", coach.seen())
    return found[1] if found else ""


async def test_who_is_asked_stays_in_view_and_once_nobody_is_the_pages_turn(
    open_class: Callable[..., Any],
) -> None:
    async with open_class(names=MANY, segment=1, size=(80, 24)) as coach:
        await coach.start()
        await coach.wind(970)
        first, _, count = page(coach).partition(" of ")
        assert (first, int(count) > 1) == ("1", True)
        await coach.wind(8)
        assert page(coach) == f"1 of {count}"
        await coach.press("asterisk", "enter")
        await coach.wind(2)
        await coach.press("up")
        turned = []
        for _ in range(3):
            turned.append(page(coach).partition(" of ")[0])
            await coach.wind(8)
        assert turned[:2] == ["1", "2"]


async def test_a_key_turns_on_from_what_is_seen_and_then_no_page_turns_by_itself(
    open_class: Callable[..., Any],
) -> None:
    # WCAG 2.2, 2.2.2 Pause, Stop, Hide.
    async with open_class(names=MANY, segment=1, size=(80, 24)) as coach:
        await coach.start()
        await coach.wind(970)
        count = page(coach).partition(" of ")[2]
        await coach.wind(20)
        await coach.press("right")
        assert page(coach) == f"2 of {count}"
        await coach.press("5", "enter")  # the next one is asked, and in view
        assert page(coach).startswith("1 of ")
        await coach.press("asterisk", "enter")
        await coach.wind(2)
        await coach.press("up")
        await coach.press("right")
        for _ in range(3):
            await coach.wind(8)
            assert page(coach).startswith("2 of ")
