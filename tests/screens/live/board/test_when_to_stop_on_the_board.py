"""When to stop, on the board: as large as can be on a class's first piece, then in a line."""

from collections.abc import Callable
from typing import Any, Literal

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.machine.terminal import Terminal
from classclock.plan.care import STOP
from classclock.plan.settings.club import Care, Club
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.board.board_drawing import draw_board
from classclock.screens.live.board.board_layout import board_layout
from classclock.tally import events as ev
from classclock.wall.board_content import BoardContent, BoardLane, BoardStation, board_now
from tests.screens.live.board.read_board import read_board

LARGE = 3
"""Rows of the smallest drawn letters."""
PLAIN = Look(SIXTEEN, Terminal(16, None))
CAUTIONS = tuple(f"Knees hurt at station {number}: less deep, or to a box." for number in range(5))
TWO_PIECES = """
title = "Depot Friday"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
caution = ["The floor is wet at the gate."]
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "9:00"
caution = ["Mind the rail."]
[[segment.station]]
movement = "bodyweight squat"
reps = 12
[[segment]]
name = "Points Lever"
format = "capped-for-time"
cap = "9:00"
rounds = 3
caution = ["Step down from the box, don't jump."]
[[segment.station]]
movement = "box step-over"
reps = 6
"""


def content(
    lanes: int, *, cautions: tuple[str, ...] = (), when: Literal["first", "later"]
) -> BoardContent:
    return BoardContent(
        title="Depot Friday",
        place="segment 3 of 3",
        name="Points Lever",
        words="3 rounds for time, cap 9:00, 18 reps",
        cautions=cautions,
        stations=(BoardStation("6 box step-over", "both feet on the box", ("(1) lower box",)),),
        sets=(),
        lines=(),
        notes=(),
        lanes=tuple(BoardLane("K", f"Name {number}", "step-up", "") for number in range(lanes)),
        next="this is the last segment",
        left="40 min of the class left",
        stop=STOP,
        stop_stood=when == "later",
    )


@given(
    st.integers(60, 240),
    st.integers(17, 70),
    st.integers(0, 26),
    st.sampled_from(["first", "later"]),
)
@settings(deadline=None)
def test_no_window_hides_when_to_stop(
    check_filled: Callable[[Drawing, int, int], None],
    columns: int,
    rows: int,
    lanes: int,
    when: Literal["first", "later"],
) -> None:
    shown = content(lanes, cautions=CAUTIONS, when=when)
    check_filled(draw_board(shown, columns, rows, PLAIN), columns, rows)
    read = read_board(shown, columns, rows, PLAIN)
    assert STOP in read["caution" if when == "first" else "stop"]
    assert all(caution in read["caution"] for caution in shown.cautions)


def test_when_to_stop_is_in_letters_the_first_time_and_in_text_after_it() -> None:
    first = content(1, when="first")
    assert "Dizzy" not in plain_text(draw_board(first, 213, 59, Look())), "drawn, not typed"
    later = content(1, when="later")
    assert STOP in plain_text(draw_board(later, 213, 59, Look()))


async def test_when_to_stop_comes_first_on_the_first_piece_and_takes_a_line_on_those_after_it(
    open_class: Any,
) -> None:
    async with open_class(TWO_PIECES, look=PLAIN) as coach:
        board = board_now(coach.session)
        assert (board.stop, board.cautions) == ("", ("The floor is wet at the gate.",))
        for segment in (1, 2, 1):
            coach.live.record_event(ev.SegmentChosen(0, segment))
            board = board_now(coach.session)
            assert (board.stop, board.stop_stood) == (STOP, False), "nothing has been started"
        await coach.start()
        await coach.wind(9 * 60)
        coach.live.record_event(ev.SegmentChosen(coach.live.clock.now(), 2))
        coach.screen.show()
        await coach.pilot.pause()
        board = board_now(coach.session)
        assert (board.name, board.stop, board.stop_stood) == ("Points Lever", STOP, True)
        assert board.cautions == ("Step down from the box, don't jump.",)
        assert STOP in coach.seen()
        coach.live.record_event(ev.SegmentChosen(coach.live.clock.now(), 1, anew=True))
        assert not board_now(coach.session).stop_stood, "the same piece once more"


async def test_a_club_s_own_words_for_when_to_stop_stand_on_the_board(open_class: Any) -> None:
    own = "Dizzy: stop, sit down."
    async with open_class(
        segment=1, look=PLAIN, club=Club(care=Care(stop=own)), names=("Ilse",)
    ) as coach:
        assert own in coach.seen()
        assert STOP not in coach.seen()


@given(st.integers(40, 200), st.integers(12, 60))
@settings(deadline=None)
def test_when_to_stop_is_never_large_at_the_cost_of_what_is_to_be_done(
    columns: int, rows: int
) -> None:
    shown = content(1, cautions=CAUTIONS[:2], when="first")
    measure = CellMeasure(Terminal())
    found = board_layout(shown, columns, rows, measure).sizes
    later = board_layout(replace(shown, stop_stood=True), columns, rows, measure).sizes
    assert found["caution"] <= found["work"]
    assert found["work"] >= LARGE or later["work"] < LARGE
