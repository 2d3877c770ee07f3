"""The board drawn by another process: the same drawing, and never a class that waits for it."""

import os
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any, NoReturn

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from rich.segment import Segment

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, above, line
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.packing import pack, unpack
from classclock.screens.canvas.theme import SIXTEEN
from classclock.screens.live.board import board_ahead
from classclock.screens.live.board.board_ahead import BoardWanted, begin, draw_ahead, drawn_ahead
from classclock.screens.live.board.board_drawing import draw_board
from classclock.screens.live.board.board_view import BoardView
from classclock.wall.board_content import board_now

DOTS = Look(SIXTEEN, Terminal(true_colour=False))

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="there are no forks here")


@pytest.fixture(autouse=True)
def two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


def wanted_by(coach: Any, look: Look | None = None) -> BoardWanted:
    return BoardWanted(board_now(coach.session), 120, 35, look or Look())


def begun() -> int:
    """The process that draws."""
    (one,) = board_ahead._begun
    return one.process


def has_gone(process: int) -> bool:
    """Whether no process of ours has this number, not even one that has ended."""
    try:
        os.waitpid(process, os.WNOHANG)
    except ChildProcessError:
        return True
    return False


@pytest.mark.parametrize("look", [Look(), DOTS])
async def test_it_is_the_drawing_that_would_be_drawn_here(open_class: Any, look: Look) -> None:
    async with open_class(segment=1) as coach:
        wanted = wanted_by(coach, look)
    begin(wanted)
    process = begun()
    drawing = drawn_ahead(wanted)
    assert drawing == draw_board(wanted.content, 120, 35, look)
    assert has_gone(process)
    assert drawn_ahead(wanted) is None  # it is handed over once


async def test_the_first_board_of_a_class_is_the_one_that_was_drawn_ahead(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(board_ahead, "get_terminal_size", lambda: (120, 36))
    async with open_class(segment=1) as coach:
        monkeypatch.setattr(board_ahead, "look_for", lambda _: coach.screen.app.look)
        draw_ahead(coach.session)
        view = coach.screen.query_one(BoardView)
        begun_for = board_ahead._begun[0].wanted
        assert (*view.size, view.content) == (120, 35, begun_for.content)
        monkeypatch.setattr("classclock.screens.live.board.board_view.draw_board", lambda *_: 1 / 0)
        view.repaint()  # draws nothing itself, or it would have divided by nothing
        assert not board_ahead._begun


async def test_another_board_is_drawn_here(open_class: Any) -> None:
    async with open_class() as coach:
        wanted = wanted_by(coach)
    for other in (
        replace(wanted, rows=34),
        replace(wanted, look=DOTS),
        replace(wanted, content=replace(wanted.content, left="30 min of the class left")),
    ):
        begin(wanted)
        process = begun()
        assert drawn_ahead(other) is None
        assert has_gone(process)


def open_files() -> list[Path]:
    return sorted(Path("/dev/fd").iterdir())


def killed(_: BoardWanted) -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def hanging(_: BoardWanted) -> None:
    signal.pause()


def failing(_: BoardWanted) -> NoReturn:
    raise RuntimeError("no letters")


@pytest.mark.parametrize("drawn", [killed, hanging, failing])
async def test_a_process_that_comes_to_grief_costs_nothing_and_says_nothing(
    open_class: Any,
    monkeypatch: pytest.MonkeyPatch,
    capfd: pytest.CaptureFixture[str],
    drawn: Callable[[BoardWanted], None],
) -> None:
    async with open_class() as coach:
        wanted = wanted_by(coach)
    monkeypatch.setattr(board_ahead, "_PATIENCE", 0.2)
    monkeypatch.setattr(board_ahead, "_drawn", drawn)
    begin(wanted)
    process = begun()
    assert drawn_ahead(wanted) is None
    assert has_gone(process)
    assert capfd.readouterr() == ("", "")


async def test_where_no_more_processes_can_be_had_nothing_is_begun(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused() -> NoReturn:
        raise BlockingIOError("Resource temporarily unavailable")

    monkeypatch.setattr(os, "fork", refused)
    async with open_class() as coach:
        wanted = wanted_by(coach)
    before = open_files()
    begin(wanted)
    assert drawn_ahead(wanted) is None
    assert open_files() == before


async def test_with_one_core_nothing_is_begun(
    open_class: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    async with open_class() as coach:
        begin(wanted_by(coach))
    assert not board_ahead._begun


async def test_a_class_that_has_begun_has_no_board_to_draw(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.start()
        draw_ahead(coach.session)
    assert not board_ahead._begun


colours = st.sampled_from(["#f4f1e8", "#0b0e12", "white", "bright_yellow"])
drawings = st.lists(
    st.builds(
        lambda text, ink, ground, bold: line(text, ink, ground, bold=bold, columns=7),
        *(st.text(max_size=9), colours, colours, st.booleans()),
    )
).map(lambda lines: above(*lines))


@given(drawings)
def test_a_drawing_comes_out_of_the_bytes_as_it_went_in(drawing: Drawing) -> None:
    assert unpack(pack(drawing)) == drawing


def test_what_is_no_drawing_of_ours_is_refused() -> None:
    with pytest.raises(ValueError, match="an ink and a ground"):
        pack(((Segment("Noor"),),))
    with pytest.raises(msgspec.DecodeError):
        unpack(pack(line("Noor", "#f4f1e8", "#0b0e12"))[:-1])
