"""The boards of the sample plans, as a class has them: whole in small windows, cautions first."""

from collections.abc import Iterator

import pytest

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import WoundSource
from classclock.club.plan_files import read_plan
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.machine.bundled import bundled
from classclock.machine.terminal import Terminal
from classclock.plan.care import STOP
from classclock.plan.cautions import cautions_of
from classclock.plan.model import Plan, is_piece
from classclock.plan.movements.completing import complete
from classclock.plan.movements.starter_library import starter_library
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.board.board_drawing import draw_board
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.record import ClassRecord
from classclock.wall.board_content import BoardContent, board_content
from tests.screens.live.board.read_board import read_board

PLAIN = Look(SIXTEEN, Terminal(16, None))
PLANS = sorted(bundled("plans").glob("*.toml"))
NAMES = tuple(f"Name {letter}" for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ")


@pytest.fixture(params=PLANS, ids=lambda file: file.stem)
def plan(request: pytest.FixtureRequest) -> Plan:
    read, _ = read_plan(request.param)
    assert read is not None
    return complete(read, starter_library())


def boards(plan: Plan, people: int) -> Iterator[BoardContent]:
    """The board of each segment, as no piece of the class has been started yet."""
    source = WoundSource()
    live = LiveClass(ClassClock(source, source.now()), ClassRecord(plan, stop=STOP), EventList())
    here = people_named(NAMES[:people])
    live.record_event(ev.ClassOpened(0, "t", "", "kg", here, None, stop=STOP))
    for index in range(len(plan.segment)):
        live.record_event(ev.SegmentChosen(0, index))
        yield board_content(live, source.wall())


@pytest.mark.parametrize("size", [(60, 17), (120, 35), (213, 59)])
@pytest.mark.parametrize("people", [1, 8, 26])
def test_every_caution_and_station_of_a_sample_stands_on_its_board(
    plan: Plan, size: tuple[int, int], people: int
) -> None:
    for segment, content in zip(plan.segment, boards(plan, people), strict=True):
        cautions = cautions_of(segment, STOP)
        if content.lift is not None and content.lift.lanes:
            text = " ".join(plain_text(draw_board(content, *size, PLAIN)).split())
        else:
            read = read_board(content, *size, PLAIN)
            text = " ".join(read.values())
        assert cautions[:1] == (STOP,) or not is_piece(segment)
        for line in cautions:
            assert line in text
        for station in content.stations:
            assert station.words in text
