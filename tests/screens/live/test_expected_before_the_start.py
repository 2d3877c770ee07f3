"""What most here would do, at who is here and on the board: nobody's name or own number."""

from collections.abc import Callable
from contextlib import AbstractAsyncContextManager
from datetime import UTC, datetime
from typing import Any

import pytest
from msgspec.structs import replace
from textual.pilot import Pilot

from classclock.book.asking.people_reading import in_files, people_called
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.live.board.board_drawing import draw_board
from classclock.screens.live.board.board_view import BoardView
from classclock.screens.ways import Ways
from classclock.tally import events as ev
from classclock.tally.lanes import Mark

PLAN = """
title = "Turntable Tuesday"
[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"
notes = ["Boxes along the west rail."]
  [[segment.station]]
  movement = "box step-over"
  reps = 15
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
[[segment]]
name = "Cool-down"
format = "countdown"
time = "6:00"
"""
NAMES = ("Ilse", "Bram", "Noor", "Piet", "Tuva")
Opened = Callable[..., AbstractAsyncContextManager[Any]]


@pytest.fixture
def known(depot: Any, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Five people who did 5, 6, 7, 8 and 12 rounds a month ago."""
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    scores = zip(NAMES, (5, 6, 7, 8, 12), strict=True)
    depot.held("2026-02-03", depot.turntable(*(depot.rounds(*one) for one in scores)))
    return depot


async def board_of(coach: Any, folder: Any, private: tuple[str, ...] = ()) -> str:
    """What the board says once the book has been read, for those whom the club knows."""
    live = coach.live
    for one in live.record.people:
        live.record_event(ev.PersonLeft(0, one.id))
    for one in people_called(NAMES, in_files(folder)):
        marks: tuple[Mark, ...] = ("off the wall",) if one.name in private else ()
        live.record_event(ev.PersonAdded(0, replace(one, marks=marks)))
    assert coach.session.remember() == ""
    coach.screen.show()
    await coach.pilot.pause()
    content = coach.screen.query_one(BoardView).content
    return str(content.expected)


async def test_the_board_says_what_most_here_would_get(open_class: Opened, known: Any) -> None:
    async with open_class(PLAN, folder=known.folder) as coach:
        assert await board_of(coach, known.folder) == "most here would get 6 to 8 rounds"
        view = coach.screen.query_one(BoardView)
        assert "most here would get 6 to 8 rounds" in plain_text(view.paint(60, 18))
        for size in ((120, 36), (213, 60)):  # in large type there
            without = draw_board(replace(view.content, expected=""), *size, view.look)
            assert plain_text(view.paint(*size)) != plain_text(without)


async def test_whoever_is_off_the_wall_is_left_out_of_it(open_class: Opened, known: Any) -> None:
    async with open_class(PLAN, folder=known.folder) as coach:
        assert (await board_of(coach, known.folder, ("Tuva",))).endswith("6 to 7 rounds")
    async with open_class(PLAN, folder=known.folder) as coach:
        few = await board_of(coach, known.folder, ("Tuva", "Ilse"))
        assert few == "", "what rests on three people is somebody's own"


async def test_a_segment_without_a_score_says_nothing(open_class: Opened, known: Any) -> None:
    async with open_class(PLAN, folder=known.folder, segment=1) as coach:
        assert await board_of(coach, known.folder) == ""


async def test_until_the_book_has_been_read_nothing_is_expected(
    open_class: Opened, known: Any
) -> None:
    async with open_class(PLAN, folder=known.folder) as coach:
        coach.session.basis = None
        coach.screen.show()
        content = coach.screen.query_one(BoardView).content
        assert content.expected == ""


async def test_who_is_here_says_it_as_people_come_in(known: Any) -> None:
    read, findings = parse_plan(PLAN, "turntable.toml")
    assert read is not None, findings
    now = datetime(2026, 3, 3, 18, 20, tzinfo=UTC)
    screen = Ways(Look(), known.folder).who(read, Club(), now)

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(screen)
        return "left"

    async def settle(pilot: Pilot[str]) -> None:
        await pilot.pause()
        while reading := [one for one in screen.workers if one.node is screen]:
            await screen.workers.wait_for_complete(reading)
            await pilot.pause()

    async with ClassclockApp(Look(), flow).run_test(size=(120, 36)) as pilot:
        await settle(pilot)
        for name in ("Ilse", "Bram", "Noor"):
            await pilot.press(*name, "enter")
        await settle(pilot)
        assert screen.desk.expected == "", "three are too few"
        for name in ("Piet", "Tuva"):
            await pilot.press(*name, "enter")
        await settle(pilot)
        assert screen.desk.expected == "Turntable: most here would get 6 to 8 rounds"
        for columns, rows in ((120, 36), (213, 60)):
            seen = plain_text(screen.view.paint(columns, rows))
            assert "Turntable: most here would get 6 to 8 rounds" in seen
        await pilot.press("escape")
