"""The end of a class on its screen: one piece after the other, turned by itself or by keys."""

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from itertools import product
from typing import Any

import pytest

from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.live.end.summary_view import SummaryView, draw_summary
from classclock.tally import events as ev
from classclock.tally.lanes import Person
from classclock.wall.score_row import ScoreRow
from classclock.wall.seen.page_turning import PageOn
from classclock.wall.summary_content import PieceSummary, Summary
from tests.short_pieces import short_pieces

PIECES = ("Signal Box", "Yard Lap", "Third Rail")
PLAN = short_pieces(PIECES)


@pytest.fixture
def at_the_end(open_class: Any) -> Callable[..., Any]:
    @asynccontextmanager
    async def opened(plan: str = PLAN, **how: Any) -> AsyncIterator[Any]:
        async with open_class(plan, **how) as coach:
            while not coach.live.record.closed:
                await coach.start()
                await coach.wind(70)
                await coach.press("asterisk", "enter")
                await coach.wind(2)
            yield coach

    return opened


def on(coach: Any) -> str:
    """The piece that is on, as its heading says."""
    return next((name for name in PIECES if name in coach.seen()), "")


async def test_pieces_take_turns_of_eight_seconds(at_the_end: Callable[..., Any]) -> None:
    async with at_the_end() as coach:
        assert (on(coach), "1 of 3" in coach.seen()) == (PIECES[0], True)
        seen = []
        for _ in range(6):
            await coach.wind(4)
            seen.append(on(coach))
        assert seen == [PIECES[n] for n in (0, 1, 1, 2, 2, 0)]


@pytest.mark.parametrize("key", ["left", "right", "space"])
async def test_once_a_key_has_come_no_page_turns_by_itself(
    at_the_end: Callable[..., Any], key: str
) -> None:
    # WCAG 2.2, 2.2.2 Pause, Stop, Hide (https://www.w3.org/TR/WCAG22/#pause-stop-hide): what
    # updates by itself can be paused, stopped or hidden by whoever reads it.
    async with at_the_end() as coach:
        await coach.wind(8)
        assert on(coach) == PIECES[1]
        await coach.press(key)
        stays = PIECES[{"left": 0, "right": 2, "space": 1}[key]]
        for _ in range(10):
            await coach.wind(8)
            assert on(coach) == stays
        await coach.press("right")
        assert on(coach) == PIECES[(PIECES.index(stays) + 1) % 3]


async def test_the_screen_says_which_keys_turn(at_the_end: Callable[..., Any]) -> None:
    async with at_the_end(size=(60, 18)) as coach:
        assert "left, right: another page; space: it stays" in coach.seen()


async def test_a_letter_still_means_somebody(at_the_end: Callable[..., Any]) -> None:
    async with at_the_end() as coach:
        await coach.press("full_stop", "n")
        assert "Noor has left" in coach.foot()
        assert on(coach) == PIECES[0]


async def test_one_page_alone_has_nothing_to_turn(at_the_end: Callable[..., Any]) -> None:
    one = PLAN.partition('\n[[segment]]\nname = "Yard Lap"')[0]
    async with at_the_end(one) as coach:
        assert "another page" not in coach.seen()
        await coach.press("space")
        assert "the class is over: ctrl+q leaves" in coach.foot()


async def test_the_pages_begin_anew_when_the_end_comes_again(
    at_the_end: Callable[..., Any],
) -> None:
    async with at_the_end() as coach:
        await coach.press("left")
        assert on(coach) == PIECES[2]
        await coach.press("up")
        await coach.wind(2)
        await coach.press("enter")
        await coach.wind(2)
        assert coach.screen.query_one(SummaryView).on == PageOn()


async def test_no_rank_and_no_earlier_score_of_who_stays_off_the_wall(
    open_class: Any,
) -> None:
    private = Person("Ilse", "Ilse", "i", marks=("off the wall",))
    async with open_class(PLAN, people=(private, Person("Noor", "Noor", "n"))) as coach:
        assert coach.live.record.people[0].off_the_wall
        coach.live.record_event(ev.PersonChanged(0, private))
        await coach.start()
        await coach.wind(50)
        await coach.press("i")
        await coach.wind(20)
        await coach.press("asterisk", "enter")
        coach.live.record_event(ev.ClassClosed(coach.live.clock.now()))
        coach.screen.show()
        page = coach.screen.query_one(SummaryView).page
        noor, ilse = page.pieces[0].rows
        assert (noor.name, ilse.name, ilse.rank, ilse.last, ilse.best) == (
            "Noor",
            "Ilse",
            "-",
            "",
            "",
        )


def row(number: int, **what: Any) -> ScoreRow:
    return ScoreRow(f"Wilhelmina {number}", "12+12", rank=str(number + 1), last="11+9", **what)


@pytest.mark.parametrize(
    ("size", "count"),
    [((60, 17), 1), ((60, 17), 8), *product([(120, 35), (213, 59)], [1, 8, 12, 26])],
)
def test_every_name_stands_whole_and_every_score_beside_the_one_before(
    size: tuple[int, int], count: int
) -> None:
    piece = PieceSummary("Points Lever", "rounds in 10:00", tuple(row(n) for n in range(count)))
    page = Summary("Night Line", (piece,), "saved: /club/results/x.json", "saved: x.json")
    look = Look().with_dots("sextants")
    seen = [plain_text(draw_summary(page, *size, look, PageOn(number))) for number in range(count)]
    # In drawn letters, so that none of them is found as terminal text.
    assert not any("Wilhelmina" in one or "12+12" in one or "11+9" in one for one in seen)
