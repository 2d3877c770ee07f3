"""How the last weeks are drawn, and scrolled."""

import datetime as dt
from collections.abc import Callable

import pytest

from classclock.machine.terminal import Terminal
from classclock.plan.movements.starter_library import starter_library
from classclock.planning.patterns import ClassHeld
from classclock.planning.weeks import Weeks, weeks_until
from classclock.screens.canvas.cells import Drawing, in_ascii, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.pages.weeks.weeks_desk import WeeksBook, WeeksDesk
from classclock.screens.pages.weeks.weeks_drawing import draw_weeks, lines_said
from classclock.wall.colours.theme import LIGHT

TODAY = dt.date(2026, 11, 25)
WEEKS = "26 Oct 2 Nov 9 Nov 16 Nov this coming"
SIZES = [(60, 18), (80, 24), (120, 36), (213, 60)]


def some(count: int, day: dt.date, *movements: str) -> list[ClassHeld]:
    return [ClassHeld(day, f"class {number}", movements, 600_000) for number in range(count)]


@pytest.fixture
def weeks() -> Weeks:
    """Three rows last week, two squats this week, a carry planned; an unknown movement."""
    held = [
        *some(3, dt.date(2026, 11, 18), "row"),
        *some(2, dt.date(2026, 11, 24), "bodyweight squat", "tram [red]pull"),
    ]
    planned = [
        ClassHeld(dt.date(2026, 11, 27), "Sandbox \x1b[31m Friday", ("farmer carry",), 600_000)
    ]
    return weeks_until(TODAY, held, planned, starter_library())


def desk_of(weeks: Weeks | None) -> WeeksDesk:
    desk = WeeksDesk()
    if weeks is not None:
        desk.know(WeeksBook(weeks, without_plan=2))
    return desk


def picture(weeks: Weeks, columns: int, rows: int, look: Look | None = None) -> str:
    return plain_text(draw_weeks(desk_of(weeks), columns, rows, look or Look()))


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
@pytest.mark.parametrize("look", [Look(), Look(LIGHT), Look(SIXTEEN, Terminal(16))])
def test_it_fills_its_box(
    weeks: Weeks,
    columns: int,
    rows: int,
    look: Look,
    check_filled: Callable[[Drawing, int, int], None],
) -> None:
    many = weeks_until(TODAY, some(99, TODAY, "row", "deadlift"), (), starter_library())
    for shown in (weeks, many, None):
        drawn = draw_weeks(desk_of(shown), columns, rows, look)
        check_filled(drawn, columns, rows)


def test_planned_classes_are_told_apart_by_their_sign(weeks: Weeks) -> None:
    seen = picture(weeks, 120, 36)
    carry = next(line for line in seen.splitlines() if "carry" in line)
    assert carry.rstrip().endswith("1 □")
    ascii_only = plain_text(in_ascii(draw_weeks(desk_of(weeks), 120, 36, Look())))
    carry = next(line for line in ascii_only.splitlines() if "carry" in line)
    assert carry.rstrip().endswith("1 o")
    assert "planned: Fri 27 Nov: Sandbox" in seen
    assert "no pattern is known for: tram [red]pull" in seen
    assert "2 classes count by its results alone" in seen


def test_what_has_no_room_is_reached_by_scrolling(weeks: Weeks) -> None:
    desk = desk_of(weeks)
    seen = plain_text(draw_weeks(desk, 60, 18, Look()))
    desk.lines = lines_said(desk.book, 60)
    for _ in range(desk.lines + 3):
        assert not desk.sign("<down>")
    scrolled = plain_text(draw_weeks(desk, 60, 18, Look()))
    assert "gone" not in seen
    assert "gone" in scrolled
    assert not desk.sign("<up>")
    assert desk.first.at == desk.lines - 2, "no key is lost at the end"
