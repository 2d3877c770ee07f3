"""Where the page is, on the coach's screen: ctrl+l, and F10 while a screen asks."""

from collections.abc import Callable
from typing import Any

import pytest
import segno
from hypothesis import given
from hypothesis import strategies as st

from classclock.following.page_messages import NotServed, PageStatus, Serve, Served
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.overlays.link_overlay import code_of, draw_link
from classclock.wall.colours.theme import DARK, LIGHT, Theme

URL = "http://192.168.1.20:8420/AbCdEfGhIjKlMnOpQrStUv/"
BARE = "http://192.168.1.20:8420/"


class Process:
    """In the server's place."""

    def __init__(self, serve: Serve) -> None:
        self.serve = serve
        self.status: PageStatus | None = Served(URL, BARE)
        self.let: list[str] = []
        self.closed = False

    def let_in(self, digits: str) -> None:
        self.let.append(digits)

    def close(self) -> None:
        self.closed = True


class Begun:
    """All that were begun."""

    def __init__(self, coach: Any) -> None:
        self.every: list[Process] = []
        coach.screen.work.serving._begin = self.begin

    def begin(self, serve: Serve) -> Any:
        self.every.append(Process(serve))
        return self.every[-1]


async def test_nobody_serves_anything_until_it_is_asked_for(open_class: Any) -> None:
    async with open_class() as coach:
        begun = Begun(coach)
        await coach.wind(1)
        assert begun.every == []
        await coach.press("ctrl+l")
        (process,) = begun.every
        assert process.serve.host == "127.0.0.1"
        assert len(process.serve.secret) == 22
        await coach.wind(1)
        assert URL in coach.seen()
        await coach.press("ctrl+l")
        await coach.wind(1)
        assert URL not in coach.seen()
        await coach.press("ctrl+l")
        assert len(begun.every) == 1, "it goes on, looked at or not"
    assert process.closed


async def test_a_screen_that_asks_is_said_and_let_in_by_the_digits_that_are_shown(
    open_class: Any,
) -> None:
    async with open_class() as coach:
        begun = Begun(coach)
        await coach.press("ctrl+l")
        (process,) = begun.every
        await coach.press("escape")
        process.status = Served(URL, BARE, 0, ("483920", "111111"))
        await coach.wind(1)
        await coach.press("f10")
        assert process.let == [], "nobody has seen them yet"
        await coach.press("ctrl+l")
        await coach.wind(1)
        assert "483 920 asks to see the class; F10 lets it in" in coach.seen()
        await coach.press("f10")
        assert process.let == ["483920"]


async def test_taps_go_through_and_no_key_of_theirs_lets_anybody_in(open_class: Any) -> None:
    async with open_class() as coach:
        begun = Begun(coach)
        await coach.press("down", "enter")
        await coach.wind(70)
        await coach.press("ctrl+l")
        begun.every[0].status = Served(URL, BARE, 3, ("483920",))
        await coach.wind(1)
        await coach.press("i", "1", "2", "n", "space")
        assert begun.every[0].let == []
        sheet = coach.live.record.sheet
        assert next(len(tally.rounds) for tally in sheet.tallies.values()) == 1
        assert coach.live.phase == "held"


async def test_what_isnt_shown_is_said_and_asking_again_tries_again(open_class: Any) -> None:
    async with open_class() as coach:
        begun = Begun(coach)
        await coach.press("ctrl+l")
        begun.every[0].status = NotServed("no page at 10.0.0.1, port 80: give another --port")
        await coach.wind(1)
        assert "give another --port" in coach.seen()
        await coach.press("escape", "ctrl+l")
        assert len(begun.every) == 2
        assert begun.every[0].closed


@pytest.mark.parametrize("theme", [DARK, LIGHT, SIXTEEN])
def test_the_code_is_that_of_the_address_dark_on_light(theme: Theme) -> None:
    drawn = draw_link(Served(URL, BARE), 120, 24, Look(theme))
    code = [[bool(one) for one in row] for row in segno.make_qr(URL, error="m").matrix]
    rows = [[cell for segment in row for cell in _cells(segment)] for row in drawn]
    halves = [[cell[half] for cell in row] for row in rows for half in (0, 1)]
    dark, light = _dark(theme), _light(theme)
    shown = [[colour == dark for colour in row[4 : 4 + len(code)]] for row in halves]
    assert shown[2 : 2 + len(code)] == code
    around = halves[0][2 : 2 + len(code) + 4]
    assert set(around) == {light}, "with ground of its own around"


def _cells(segment: Any) -> list[tuple[str, str]]:
    ink, ground = segment.style.color.name, segment.style.bgcolor.name
    return [(ink, ground)] * len(segment.text)


def _dark(theme: Theme) -> str:
    return theme.key_ink if theme.dark else theme.ink


def _light(theme: Theme) -> str:
    return theme.key_ground if theme.dark else theme.key_ink


@given(st.integers(20, 200), st.integers(1, 40), st.booleans())
def test_it_fills_its_box_at_every_size(
    check_filled: Callable[[Drawing, int, int], None],
    columns: int,
    rows: int,
    served: bool,  # noqa: FBT001  drawn
) -> None:
    status = Served(URL, BARE, 2, ("483920",)) if served else NotServed("the page has stopped")
    check_filled(draw_link(status, columns, rows, Look()), columns, rows)


def test_a_code_is_kept_as_long_as_its_address_is() -> None:
    assert code_of(URL) is code_of(URL)
