"""The board: what it says, and that its cautions are never left out."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.board.board_drawing import draw_board
from classclock.tally.lanes import Choice
from classclock.wall.board_content import BoardContent, BoardLane, BoardStation
from tests.screens.live.board.read_board import read_board

PLAIN = Look(SIXTEEN, Terminal(16, None))
"""A terminal without drawn letters, so that all text can be read back."""


def content(lanes: int = 8, *, more: int = 0, equipment: str = "") -> BoardContent:
    station = BoardStation("9 push press, 22.5 kg", "arms straight", ("(1) seated press",))
    return BoardContent(
        title="Turntable Tuesday",
        place="segment 2 of 3",
        name="Turntable",
        words="rounds in 16:00, 18 reps a round",
        cautions=(
            "Step down from the box, don't jump.",
            *(f"Knees hurt at station {number}: less deep, or to a box." for number in range(more)),
            "Dizzy: stop and call the coach.",
        ),
        equipment=equipment,
        stations=(station, station, station),
        sets=(),
        lines=("easy row",),
        notes=("boxes along the rail",) * 3,
        lanes=tuple(BoardLane("K", f"Name {n}", "step-up", "") for n in range(lanes)),
        next="next: Cool-down, 6:00",
        left="40 min of the class left, the plan needs 23 min more",
    )


@given(st.integers(60, 240), st.integers(17, 70), st.integers(0, 26), st.integers(0, 6))
@settings(deadline=None)
def test_no_window_hides_a_caution(
    check_filled: Callable[[Drawing, int, int], None],
    columns: int,
    rows: int,
    lanes: int,
    more: int,
) -> None:
    short = "ctrl+t: 14 bars are needed at once, 6 are here; 14 boxes are needed at once"
    shown = content(lanes, more=more, equipment=short)
    check_filled(draw_board(shown, columns, rows, PLAIN), columns, rows)
    read = read_board(shown, columns, rows, PLAIN)
    assert all(caution in read["caution"] for caution in shown.cautions)
    assert "9 push press" in read["work"] or rows < 24, "what is done stays, where there is room"


@pytest.mark.parametrize("size", [(60, 17), (120, 35), (213, 59)])
def test_the_board_fills_every_size_in_drawn_letters(
    check_filled: Callable[[Drawing, int, int], None], size: tuple[int, int]
) -> None:
    check_filled(draw_board(content(), *size, Look()), *size)


async def test_options_bear_the_numbers_that_the_keys_use(open_class: Any) -> None:
    async with open_class(segment=1, look=PLAIN) as coach:
        seen = coach.seen()
        assert "(1) lower box, (2) 4 step-up" in seen
        assert "(3) chair stand" in seen
        await coach.start()
        await coach.press("colon", "n", "2")
        lane = next(lane for lane in coach.live.record.sheet.lanes if lane.name == "Noor")
        tally = coach.live.record.sheet.tallies[lane.id]
        assert tally.lane.options == (2, 0)


async def test_the_board_says_what_each_lane_modifies(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        coach.live.choose("Bram", 1, Choice((2,)))
        coach.screen.show()
        await coach.pilot.pause()
        assert "step-up" in coach.seen()


async def test_what_comes_next_and_the_time_left_are_in_view(open_class: Any) -> None:
    async with open_class() as coach:
        seen = coach.seen()
        assert "next: Turntable, 16:00" in seen
        assert "40 min of the class left, the plan needs 25 min more" in seen
        assert "18:20  ends 19:00" in seen


async def test_text_from_a_plan_cannot_style_or_steer_the_screen(open_class: Any) -> None:
    plan = """
title = "[red]Depot[/red]"
[[segment]]
name = "[b]Bold[/b]"
format = "countdown"
time = "5:00"
lines = ["[link=x]row[/link]"]
"""
    async with open_class(plan, look=PLAIN) as coach:
        seen = coach.seen()
        assert "[red]Depot[/red]" in seen
        assert "[b]Bold[/b]" in seen
        assert "[link=x]row[/link]" in seen


@pytest.mark.parametrize("lanes", [1, 8, 13, 26])
def test_everybody_in_the_piece_is_on_the_board(lanes: int) -> None:
    text = plain_text(draw_board(content(lanes), 120, 35, PLAIN))
    assert all(f"Name {number} " in text for number in range(lanes))


def test_many_cautions_push_everything_else_off_a_small_board() -> None:
    cautions = tuple(
        f"Caution number {number}, to be read before the start." for number in range(12)
    )
    read = read_board(replace(content(), cautions=cautions), 60, 17, PLAIN)
    assert all(caution in read["caution"] for caution in cautions)
