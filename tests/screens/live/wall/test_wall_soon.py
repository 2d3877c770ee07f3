"""What the wall is about to show is drawn when nobody waits for it."""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest
from textual.widget import Widget

from classclock.screens.canvas import stack as stacked
from classclock.screens.canvas.letters import outline_type
from classclock.screens.canvas.letters.lettering import draw_lettering
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import stack
from classclock.screens.live.wall.big_clock import ClockFace, draw_clock
from classclock.screens.live.wall.heading import beside_lines
from classclock.screens.live.wall.wall_soon import soon_shown
from classclock.screens.live.wall.wall_view import WallView, lanes_layout
from classclock.wall.wall_content import WallContent

AT_GO = WallContent(
    "16:00", "Turntable", "rounds in 16:00", emphasis="GO", stations=("6 box step-over",)
)
LATER = WallContent("9:57", "Turntable", "rounds in 16:00", stations=("6 box step-over",))


@pytest.fixture(autouse=True)
def nothing_drawn() -> None:
    for cache in (outline_type._draw, draw_lettering, stacked._stack):
        cache.cache_clear()


def drawn_anew() -> int:
    return outline_type._draw.cache_info().misses


def test_the_next_digits_the_tallies_and_the_heading_are_drawn_already() -> None:
    wall, look = lanes_layout(200, 60, 7, 6), Look()
    draw_clock(ClockFace(AT_GO.clock), wall.clock.width, wall.clock.height, look)
    for draw in soon_shown(AT_GO, wall, look):
        draw()
    before = drawn_anew()
    for clock in ("15:59", "12:34", "17:08"):
        draw_clock(ClockFace(clock), wall.clock.width, wall.clock.height, look)
    for tally in ("1", "7+12", "30"):
        look.letters(tally, wall.lane.tally.width, wall.lane.type_rows, air=wall.lane.air)
    stack(beside_lines(LATER, look), wall.heading.width, wall.heading.height, look)
    # The sign between rounds and reps is the one that no clock and no first round has.
    assert drawn_anew() - before <= 1


def test_each_piece_is_a_small_one() -> None:
    """A key waits for one at most: none draws more than a heading or the digits of a clock."""
    wall, look = lanes_layout(200, 60, 7, 6), Look()
    counts = [drawn_anew()]
    for draw in soon_shown(AT_GO, wall, look):
        draw()
        counts.append(drawn_anew())
    assert max(after - before for before, after in pairwise(counts)) <= 4


async def test_the_wall_begins_when_its_lanes_come_and_ends_when_all_is_drawn(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    pieces: list[Callable[[], None]] = []
    stopped: list[bool] = []

    class Timer:
        def stop(self) -> None:
            stopped.append(True)

    def set_interval(_: Widget, __: float, callback: Callable[[], None]) -> Timer:
        pieces.append(callback)
        return Timer()

    monkeypatch.setattr(WallView, "set_interval", set_interval)
    async with open_class(segment=1, size=(200, 60)) as coach:
        await coach.start()
        assert len(pieces) == 1
        (do_next,) = pieces
        while not stopped:
            do_next()
        before = drawn_anew()
        await coach.wind(21)
        await coach.press("i")
        assert drawn_anew() == before
