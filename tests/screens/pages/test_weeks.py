"""The last weeks, on the screen and without one."""

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import pytest

from classclock.machine.terminal import Terminal
from classclock.plan.movements.movements_reading import starter_library
from classclock.plan.settings.club import Club
from classclock.planning.patterns import Held
from classclock.planning.weeks import Weeks, weeks_until
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import Drawing, in_ascii, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.theme import LIGHT, SIXTEEN
from classclock.screens.pages.weeks.weeks_drawing import WeeksPage, draw_weeks, lines_said
from classclock.screens.pages.weeks.weeks_screen import WeeksScreen
from classclock.screens.ways import Ways

TODAY = dt.date(2026, 11, 25)
WEEKS = "26 Oct 2 Nov 9 Nov 16 Nov this coming"
SIZES = [(60, 18), (80, 24), (120, 36), (213, 60)]


def some(count: int, day: dt.date, *movements: str) -> list[Held]:
    return [Held(day, f"class {number}", movements, 600_000) for number in range(count)]


@pytest.fixture
def weeks() -> Weeks:
    """Three rows last week, two squats this week, a carry planned; an unknown movement."""
    held = [
        *some(3, dt.date(2026, 11, 18), "row"),
        *some(2, dt.date(2026, 11, 24), "bodyweight squat", "tram [red]pull"),
    ]
    planned = [Held(dt.date(2026, 11, 27), "Sandbox \x1b[31m Friday", ("farmer carry",), 600_000)]
    return weeks_until(TODAY, held, planned, starter_library())


async def read(screen: WeeksScreen) -> None:
    """Wait until its files are read."""
    reading = [worker for worker in screen.workers if worker.node is screen]
    if reading:
        await screen.workers.wait_for_complete(reading)


def picture(weeks: Weeks, columns: int, rows: int, look: Look | None = None) -> str:
    return plain_text(draw_weeks(WeeksPage(weeks, 2, ""), columns, rows, look or Look()))


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_each_pattern_has_a_row_and_each_week_a_column(
    weeks: Weeks, columns: int, rows: int
) -> None:
    seen = picture(weeks, columns, rows).splitlines()
    titles = next(line for line in seen if "week of" in line)
    assert titles.split() == ["week", "of", *WEEKS.split()]
    rowed = next(line for line in seen if "row/run" in line)
    squat = next(line for line in seen if "squat" in line)
    assert rowed[titles.index("16 Nov") :].split()[0] == "3"
    assert squat[titles.index("this") :].split()[0] == "2"
    for word in ("under 8:00", "8:00 to 15:00", "over 15:00", "escape: back"):
        assert any(word in line for line in seen), word


@pytest.mark.parametrize(("columns", "rows"), SIZES)
@pytest.mark.parametrize("look", [Look(), Look(LIGHT), Look(SIXTEEN, Terminal(true_colour=False))])
def test_it_fills_its_box(
    weeks: Weeks,
    columns: int,
    rows: int,
    look: Look,
    check_filled: Callable[[Drawing, int, int], None],
) -> None:
    many = weeks_until(TODAY, some(99, TODAY, "row", "deadlift"), (), starter_library())
    for shown in (weeks, many, None):
        drawn = draw_weeks(WeeksPage(shown, 2, ""), columns, rows, look)
        check_filled(drawn, columns, rows)


def test_planned_classes_are_told_apart_by_their_sign(weeks: Weeks) -> None:
    seen = picture(weeks, 120, 36)
    carry = next(line for line in seen.splitlines() if "carry" in line)
    assert carry.rstrip().endswith("1 □")
    ascii_only = plain_text(in_ascii(draw_weeks(WeeksPage(weeks, 2, ""), 120, 36, Look())))
    carry = next(line for line in ascii_only.splitlines() if "carry" in line)
    assert carry.rstrip().endswith("1 o")
    assert "planned: Fri 27 Nov: Sandbox" in seen
    assert "no pattern is known for: tram [red]pull" in seen
    assert "2 classes count by its results alone" in seen


def test_what_has_no_room_is_reached_by_scrolling(weeks: Weeks) -> None:
    page = WeeksPage(weeks, 2, "")
    said = lines_said(page, 60)
    seen = plain_text(draw_weeks(page, 60, 18, Look()))
    page.top = said - 1
    scrolled = plain_text(draw_weeks(page, 60, 18, Look()))
    assert "gone" not in seen
    assert "gone" in scrolled


async def test_f7_opens_it_from_home_and_escape_goes_back(tmp_path: Path) -> None:
    home = Ways(Look(), tmp_path).home(Club())

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(home)
        return "left"

    async with ClassclockApp(Look(), flow).run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        assert "F7 weeks" in plain_text(home.view.paint(120, 36))
        await pilot.press("f7")
        screen = pilot.app.screen
        assert isinstance(screen, WeeksScreen)
        await read(screen)
        await pilot.pause()
        assert screen.view.page.weeks is not None
        await pilot.press("down", "up", "escape")
        assert pilot.app.screen is home


async def test_a_faulty_movements_file_is_said_in_words(tmp_path: Path) -> None:
    (tmp_path / "movements.toml").write_text("[[movement]]\nnam = 1\n")
    screen = WeeksScreen(Look(), folder=tmp_path, club=Club())

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(screen)
        return "left"

    async with ClassclockApp(Look(), flow).run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        await read(screen)
        await pilot.pause()
        assert "movements.toml" in plain_text(screen.view.paint(120, 36))
        await pilot.press("escape")
