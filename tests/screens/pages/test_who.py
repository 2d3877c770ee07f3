"""Who is here, on the screen."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from textual.events import Paste
from textual.pilot import Pilot

from classclock.book.changing import write_down
from classclock.book.files.changes import MarkSet
from classclock.machine.terminal import Terminal
from classclock.plan.care import BEFORE_A_CLASS
from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.theme import SIXTEEN
from classclock.screens.pages.who.who_drawing import draw_who
from classclock.screens.pages.who.who_screen import WhoCame
from classclock.screens.ways import Ways

PLAIN = Look(SIXTEEN, Terminal(true_colour=False, block_characters=False, sextants=False))
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


class Shown:
    """One screen in an app, and what it ended with."""

    def __init__(self, folder: Path) -> None:
        self.came: WhoCame | None = None
        self.screen = Ways(Look(), folder).who(plan(), Club(), NOW)

    async def flow(self, app: ClassclockApp) -> str:
        self.came = await app.push_screen_wait(self.screen)
        return "done"

    async def read(self, pilot: Pilot[str]) -> None:
        """Wait until its files are read."""
        await pilot.pause()
        reading = [worker for worker in self.screen.workers if worker.node is self.screen]
        if reading:
            await self.screen.workers.wait_for_complete(reading)

    @property
    def picture(self) -> str:
        view = self.screen.view
        return plain_text(view.paint(*view.size))


def plan() -> Plan:
    read, findings = parse_plan(PLAN, "t.toml")
    assert read is not None, findings
    return read


@pytest.fixture
def shown(tmp_path: Path) -> Shown:
    return Shown(tmp_path)


@pytest.fixture
def app(shown: Shown) -> ClassclockApp:
    return ClassclockApp(Look(), shown.flow)


async def test_names_typed_and_an_option_chosen_come_out_with_the_class_s_end(
    shown: Shown, app: ClassclockApp
) -> None:
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.press(*"Ilse", "enter", "1", *"Bram", "enter", "right", "enter")
        await pilot.pause()
    assert shown.came is not None
    assert [(one.name, one.key) for one in shown.came.people] == [("Ilse", "i"), ("Bram", "b")]
    assert shown.came.choices[0, "ilse"].options == (1,)
    assert list(shown.came.choices) == [(0, "ilse")]
    assert shown.came.ends == "2026-03-03T19:35:00+00:00"


async def test_those_who_came_before_are_found_in_the_book(depot: Any) -> None:
    shown = Shown(depot.folder)
    app = ClassclockApp(Look(), shown.flow)
    lane = depot.reps("Saoirse", 40, options=["bike"])
    headway = depot.piece("Headway", "rounds-in-time", [lane], benchmark=None)
    depot.save(depot.document("2026-02-24", headway))
    async with app.run_test(size=(120, 36)) as pilot:
        await shown.read(pilot)
        await pilot.press(*"sao", "enter")
        await pilot.pause()
        assert "bike, as before" in shown.picture
        await pilot.press("ctrl+s")
        await pilot.pause()
    assert shown.came is not None
    assert [person.id for person in shown.came.people] == ["saoirse"]
    assert shown.came.choices[0, "saoirse"].options == (1,)


async def test_marks_are_a_neutral_sign_until_they_are_asked_for(
    shown: Shown, app: ClassclockApp
) -> None:
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.press(*"Ilse", "enter")
        await pilot.pause()
        assert "newcomer" not in shown.picture
        assert "•" in shown.picture
        await pilot.press("f7")
        await pilot.pause()
        assert "newcomer" in shown.picture
        assert "the TV shows this too" in shown.picture


@pytest.mark.parametrize("key", ["escape", "ctrl+q", "ctrl+c"])
async def test_escape_and_the_keys_that_leave_go_back(
    key: str, shown: Shown, app: ClassclockApp
) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(key)
        await pilot.pause()
    assert shown.came is None
    assert app.return_value == "done"


async def test_a_pasted_name_counts_as_typed(shown: Shown, app: ClassclockApp) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        shown.screen.post_message(Paste("Tuva\n de Vries"))
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert [person.name for person in shown.screen.desk.who.people] == ["Tuva de Vries"]


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)])
@pytest.mark.parametrize("people", [0, 3, 30])
async def test_every_size_is_filled_to_the_last_cell_whatever_the_names(
    size: tuple[int, int], people: int, shown: Shown, check_filled: Callable[..., None]
) -> None:
    desk = shown.screen.desk
    for number in range(people):
        desk.paste(f"{HOSTILE[number % len(HOSTILE)]} {number}")
        desk.sign("<enter>")
    drawn = draw_who(shown.screen.view.page, *size, Look())
    check_filled(drawn, *size)


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60)])
async def test_what_to_ask_before_a_class_stands_there_as_the_screen_opens(
    size: tuple[int, int], shown: Shown
) -> None:
    page = shown.screen.view.page
    picture = plain_text(draw_who(page, *size, PLAIN))
    assert all(line in picture for line in BEFORE_A_CLASS)
    for name in ("Ilse", "Bram"):
        page.desk.paste(name)
        page.desk.sign("<enter>")
    picture = plain_text(draw_who(page, *size, PLAIN))
    assert "1 bike" in picture, "in a low window the options take its place"
    assert all((line in picture) == (size[1] > 18) for line in BEFORE_A_CLASS)


async def test_what_to_ask_before_a_class_says_nothing_of_anybody(shown: Shown) -> None:
    desk = shown.screen.desk
    before = plain_text(draw_who(shown.screen.view.page, 120, 36, PLAIN))
    desk.paste("Ilse")
    desk.sign("<enter>")
    desk.who.toggle_mark(desk.who.people[0].id, "under 18")
    after = plain_text(draw_who(shown.screen.view.page, 120, 36, PLAIN))
    rows = [
        [row for row in picture.splitlines() if "First weeks" in row] for picture in (before, after)
    ]
    assert rows[0] == rows[1]


async def test_marks_of_the_book_come_back_and_those_set_here_are_to_be_remembered(
    depot: Any,
) -> None:
    depot.held("2026-02-24", depot.turntable(depot.rounds("Saoirse", 7)))
    write_down(depot.folder, [MarkSet(athlete="saoirse", mark="under 18", on=True)], NOW)
    shown = Shown(depot.folder)
    async with ClassclockApp(Look(), shown.flow).run_test(size=(120, 36)) as pilot:
        await shown.read(pilot)
        await pilot.press(*"sao", "enter", "f7", "4")
        await pilot.pause()
        assert "under 18, off the wall" in shown.picture
        await pilot.press("ctrl+s")
        await pilot.pause()
    assert shown.came is not None
    (saoirse,) = shown.came.people
    assert saoirse.off_the_wall
    assert shown.came.marked == {("saoirse", "off the wall"): True}
