"""Who is here, on the screen and drawn."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.changing import write_down
from classclock.book.files.changes import MarkSet
from classclock.machine.terminal import Terminal
from classclock.plan.care import BEFORE_A_CLASS
from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.pages.who.who_drawing import draw_who
from classclock.screens.pages.who.who_screen import WhoScreen
from classclock.screens.ways import Ways

PLAIN = Look(SIXTEEN, Terminal(16, None))
NOW = datetime(2026, 3, 3, 18, 28, tzinfo=UTC)
PLAN = """
title = "Headway Wednesday"
[[segment]]
name = "Headway"
format = "rounds-in-time"
time = "12:00"
  [[segment.station]]
  movement = "row"
  calories = 8
  options = [{ name = "bike", calories = 6 }]
"""
HOSTILE = ("[red]Odell[/red]", "\x1b[31mBram", "🦊 Uri", "\u202eleon", "טל")


def plan() -> Plan:
    read, findings = parse_plan(PLAN, "t.toml")
    assert read is not None, findings
    return read


@pytest.fixture
def who(tmp_path: Path) -> WhoScreen:
    return who_of(tmp_path)


def who_of(folder: Path) -> WhoScreen:
    return Ways(Look(), folder).who(plan(), Club(), NOW)


async def test_names_typed_and_an_option_chosen_come_out_with_the_class_s_end(
    open_page: Any, who: WhoScreen
) -> None:
    async with open_page(who) as coach:
        await coach.press(*"Ilse", "enter", "1", *"Bram", "enter", "right", "enter")
    came = coach.result
    assert [(one.name, one.key) for one in came.people] == [("Ilse", "i"), ("Bram", "b")]
    ilse = came.people[0].id
    assert came.choices[0, ilse].options == (1,)
    assert list(came.choices) == [(0, ilse)]
    assert came.ends == "2026-03-03T19:35:00+00:00"


async def test_those_who_came_before_are_found_in_the_book(open_page: Any, depot: Any) -> None:
    lane = depot.reps("Saoirse", 40, options=["bike"])
    headway = depot.piece("Headway", "rounds-in-time", [lane], benchmark=None)
    depot.save(depot.document("2026-02-24", headway))
    async with open_page(who_of(depot.folder)) as coach:
        await coach.press(*"sao", "enter")
        assert "bike, as before" in coach.seen
        await coach.press("ctrl+s")
    assert [person.id for person in coach.result.people] == ["saoirse"]
    assert coach.result.choices[0, "saoirse"].options == (1,)


async def test_marks_are_a_neutral_sign_until_they_are_asked_for(
    open_page: Any, who: WhoScreen
) -> None:
    async with open_page(who) as coach:
        await coach.press(*"Ilse", "enter")
        assert "newcomer" not in coach.seen
        assert "•" in coach.seen
        await coach.press("f7")
        assert "newcomer" in coach.seen
        assert "the TV shows this too" in coach.seen


@pytest.mark.parametrize("key", ["escape", "ctrl+q", "ctrl+c"])
async def test_escape_and_the_keys_that_leave_go_back(
    key: str, open_page: Any, who: WhoScreen
) -> None:
    async with open_page(who, (80, 24)) as coach:
        await coach.press(key)
    assert coach.result is None
    assert coach.pilot.app.return_value == "done"


async def test_a_pasted_name_counts_as_typed(open_page: Any, who: WhoScreen) -> None:
    async with open_page(who, (80, 24)) as coach:
        await coach.paste("Tuva\n de Vries")
        await coach.press("enter")
        assert [person.name for person in who.desk.who.people] == ["Tuva de Vries"]


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)])
@pytest.mark.parametrize("people", [0, 3, 30])
def test_every_size_is_filled_to_the_last_cell_whatever_the_names(
    size: tuple[int, int], people: int, who: WhoScreen, check_filled: Callable[..., None]
) -> None:
    for number in range(people):
        who.desk.paste(f"{HOSTILE[number % len(HOSTILE)]} {number}")
        who.desk.sign("<enter>")
    check_filled(draw_who(who.desk, *size, Look()), *size)


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60)])
def test_what_to_ask_before_a_class_stands_there_as_the_screen_opens(
    size: tuple[int, int], who: WhoScreen
) -> None:
    picture = plain_text(draw_who(who.desk, *size, PLAIN))
    assert all(line in picture for line in BEFORE_A_CLASS)
    for name in ("Ilse", "Bram"):
        who.desk.paste(name)
        who.desk.sign("<enter>")
    picture = plain_text(draw_who(who.desk, *size, PLAIN))
    assert "1 bike" in picture, "in a low window the options take its place"
    assert all((line in picture) == (size[1] > 18) for line in BEFORE_A_CLASS)


def test_what_to_ask_before_a_class_says_nothing_of_anybody(who: WhoScreen) -> None:
    desk = who.desk
    before = plain_text(draw_who(desk, 120, 36, PLAIN))
    desk.paste("Ilse")
    desk.sign("<enter>")
    desk.who.toggle_mark(desk.who.people[0].id, "under 18")
    after = plain_text(draw_who(desk, 120, 36, PLAIN))
    rows = [
        [row for row in picture.splitlines() if "First weeks" in row] for picture in (before, after)
    ]
    assert rows[0] == rows[1]


async def test_marks_of_the_book_come_back_and_those_set_here_are_to_be_remembered(
    open_page: Any, depot: Any
) -> None:
    depot.held("2026-02-24", depot.turntable(depot.rounds("Saoirse", 7)))
    write_down(depot.folder, [MarkSet(athlete="saoirse", mark="under 18", on=True)], NOW)
    async with open_page(who_of(depot.folder)) as coach:
        await coach.press(*"sao", "enter", "f7", "4")
        assert "under 18, off the wall" in coach.seen
        await coach.press("ctrl+s")
    (saoirse,) = coach.result.people
    assert saoirse.off_the_wall
    assert coach.result.marked == {("saoirse", "off the wall"): True}


async def test_nobody_known_comes_as_somebody_new_though_the_book_was_slow(
    open_page: Any, depot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    depot.held("2026-02-24", depot.turntable(depot.rounds("Saoirse", 7)))
    page = who_of(depot.folder)
    monkeypatch.setattr(page, "read", lambda *_: None)  # not before the coach has left
    async with open_page(page) as coach:
        await coach.press(*"Saoirse", "enter", "ctrl+s")
    assert [person.id for person in coach.result.people] == ["saoirse"]
