"""The chart and an athlete's page, on the screen and without one."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.screen import Screen

from classclock.book.asking.asked_in_words import asked_in_words
from classclock.book.changing import write_down
from classclock.book.files.changes import MarkSet
from classclock.book.tables.queries import Athlete, Best
from classclock.clock.source import local_now
from classclock.machine.terminal import Terminal
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.records.result import Result, Terms, rounds_worth
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.theme import LIGHT, SIXTEEN
from classclock.screens.pages.athlete.athlete_desk import AthleteDesk
from classclock.screens.pages.athlete.athlete_drawing import draw_athlete
from classclock.screens.pages.athlete.athlete_screen import AthleteScreen
from classclock.screens.pages.chart.chart_desk import ChartBook, ChartDesk
from classclock.screens.pages.chart.chart_drawing import draw_chart
from classclock.screens.pages.chart.chart_screen import ChartScreen
from classclock.screens.pages.home.home_screen import HomeScreen
from classclock.screens.ways import Ways

WRITTEN, MODIFIED = Terms("", "22.5 kg", "16:00"), Terms("step-up", "22.5 kg", "16:00")
HOSTILE = ("[red]Odell[/red]", "\x1b[31mBram", "🦊 Uri", "\u202eleon", "טל", "M" * 60)
SIZES = [(60, 18), (120, 36), (213, 60)]


def athlete(name: str, *marks: Any) -> Athlete:
    return Athlete(name.lower(), name, name[0].lower(), marks, 9, "2026-01-06", "2026-11-24")


def best(who: str, benchmark: str, rounds: int, day: str, terms: Terms = WRITTEN) -> Best:
    moment = int(datetime.fromisoformat(f"{day}T18:30:00+01:00").timestamp() * 1000)
    worth, score = rounds_worth(rounds, 3), f"{rounds}+3"
    result = Result(
        who, benchmark, benchmark, day, moment, score, "rounds", worth, rounds * 27 + 3, terms
    )
    return Best(result, 1, moment)


@pytest.fixture
def desk() -> ChartDesk:
    """Ilse 7 and 9 as written, Bram 8 modified, Noor nothing on headway; Noor is off the wall."""
    shown = ChartDesk(mirrored=True, here_words="who was in the latest class")
    bests = {
        ("ilse", "turntable"): [best("ilse", "turntable", 7, "2026-10-02")],
        ("ilse", "headway"): [best("ilse", "headway", 9, "2026-11-24")],
        ("bram", "turntable"): [best("bram", "turntable", 8, "2026-09-01", MODIFIED)],
        ("noor", "turntable"): [best("noor", "turntable", 9, "2026-10-02")],
    }
    people = (athlete("Bram"), athlete("Ilse"), athlete("Noor", "off the wall"))
    shown.know(ChartBook(people, bests, "2026-11", frozenset({"bram", "noor"})))
    return shown


def press(desk: ChartDesk, *signs: str) -> list[str]:
    for sign in signs:
        assert not desk.sign(sign)
    return [row.name for row in desk.rows]


def picture(desk: ChartDesk, columns: int = 120, rows: int = 36) -> str:
    return plain_text(draw_chart(desk, columns, rows, Look()))


def test_tab_sorts_by_the_highlighted_benchmark_and_back_by_name(desk: ChartDesk) -> None:
    assert press(desk) == ["Bram", "Ilse", "Noor"]
    assert press(desk, "<right>", "<tab>") == ["Noor", "Ilse", "Bram"]  # modified after as written
    assert press(desk, "<tab>") == ["Bram", "Ilse", "Noor"]


def test_typing_finds_a_name_and_escape_drops_it_before_it_leaves(desk: ChartDesk) -> None:
    assert press(desk, *"il") == ["Ilse"]
    assert press(desk, "<escape>") == ["Bram", "Ilse", "Noor"]
    assert desk.sign("<escape>")


def test_a_name_that_begins_so_stands_before_one_that_has_it_in_the_middle() -> None:
    shown = ChartDesk(mirrored=False)
    bests = {
        (who, "turntable"): [best(who, "turntable", 7, "2026-10-02")] for who in ("hilke", "ilse")
    }
    shown.know(ChartBook((athlete("Hilke"), athlete("Ilse")), bests))
    assert press(shown, *"il") == ["Ilse", "Hilke"]


def test_f6_leaves_out_who_is_not_here_and_benchmarks_that_none_of_them_did(
    desk: ChartDesk,
) -> None:
    assert list(desk.benchmarks) == ["headway", "turntable"]
    assert press(desk, "<f6>") == ["Bram", "Noor"]
    assert list(desk.benchmarks) == ["turntable"]
    assert press(desk, "<f6>") == ["Bram", "Ilse", "Noor"]


def test_new_this_month_and_modified_are_told_by_a_sign_not_by_colour_alone(
    desk: ChartDesk,
) -> None:
    lines = picture(desk).splitlines()
    ilse, bram = (next(line for line in lines if name in line) for name in (" Ilse", "Bram"))
    assert "9+3*" in ilse
    assert "7+3*" not in ilse
    assert "~8+3" in bram


def test_the_highlighted_best_is_told_in_words(desk: ChartDesk) -> None:
    press(desk, "<down>", "<right>")
    assert "Ilse, turntable: 7+3 on 2 October 2026; as written; 22.5 kg; 16:00" in picture(desk)


def test_who_keeps_bests_off_the_wall_has_a_dash_where_the_room_sees_it(desk: ChartDesk) -> None:
    press(desk, "<right>", "<end>")
    shown = picture(desk)
    assert "Noor, turntable: kept off the wall" in shown
    assert not any("9+3" in line for line in shown.splitlines() if "Noor" in line)
    desk.mirrored = False
    assert "Noor, turntable: 9+3" in picture(desk)


def test_the_highlight_stays_within_the_chart(desk: ChartDesk) -> None:
    press(desk, "<up>", "<left>", "<pageup>")
    assert (desk.row, desk.column) == (0, 0)
    press(desk, "<end>", "<down>", *["<right>"] * 5)
    assert (desk.row, desk.column) == (2, 1)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(
    "look", [Look(), Look(LIGHT), Look(SIXTEEN, Terminal(true_colour=False, sextants=False))]
)
def test_three_hundred_by_sixty_fill_every_size_with_the_highlight_in_view(
    size: tuple[int, int], look: Look, check_filled: Callable[..., None]
) -> None:
    names = [*HOSTILE, *(f"Tram {n:03d}" for n in range(294))]
    people = tuple(Athlete(name, name, "", (), 1, "", "") for name in names)
    bests = {
        (name, f"piece {n:02d}"): [best(name, f"piece {n:02d}", 4 + n % 9, "2026-11-03")]
        for name in names
        for n in range(60)
    }
    desk = ChartDesk(mirrored=True)
    desk.know(ChartBook(people, bests, "2026-11"))
    press(desk, *["<pagedown>"] * 9, *["<right>"] * 47)
    drawn = draw_chart(desk, *size, look)
    check_filled(drawn, *size)
    assert names[180] in plain_text(drawn)
    assert "piece 47" in plain_text(drawn)
    press(desk, "<home>")
    check_filled(draw_chart(desk, *size, look), *size)


@pytest.mark.parametrize("size", SIZES)
def test_an_empty_chart_says_what_fills_it(
    size: tuple[int, int], check_filled: Callable[..., None]
) -> None:
    desk = ChartDesk(mirrored=True)
    desk.know(ChartBook())
    drawn = draw_chart(desk, *size, Look())
    check_filled(drawn, *size)
    assert "no bests yet" in plain_text(drawn)


# -- on the screen ----------------------------------------------------------------


async def read(pilot: Pilot[str], screen: Screen[Any]) -> None:
    """Wait until the book has been asked."""
    await pilot.pause()
    reading = [worker for worker in screen.workers if worker.node is screen]
    if reading:
        await screen.workers.wait_for_complete(reading)
    await pilot.pause()


@pytest.fixture
def club(depot: Any, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two classes: Ilse better each time, Bram modified."""
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    for day, rounds in (("2026-11-03", 6), ("2026-11-17", 7)):
        lanes = (
            depot.rounds("Ilse", rounds, 4),
            depot.rounds("Bram", rounds, 2, modification="step-up"),
        )
        lifts = depot.lifted("Ilse", "60 kg", f"{60 + rounds} kg")
        depot.held(day, depot.turntable(*lanes), depot.squats(lifts))
    folder: Path = depot.folder
    return folder


async def test_from_home_one_key_opens_the_chart_and_enter_an_athlete_s_page(club: Path) -> None:
    home = Ways(Look(), club).home(Club(name="Line 0 Depot"))

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(home)
        return "done"

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        view = home.view
        assert "F6 chart" in plain_text(view.paint(*view.size))
        await pilot.press("f6")
        await pilot.pause()
        chart = app.screen
        assert isinstance(chart, ChartScreen), chart
        await read(pilot, chart)
        await pilot.press(*"ilse", "enter")
        await pilot.pause()
        page = app.screen
        assert isinstance(page, AthleteScreen)
        await read(pilot, page)
        shown = plain_text(page.view.paint(*page.view.size))
        assert "front squat" in shown  # the highlighted column, the first
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, ChartScreen)
        await pilot.press("escape", "escape")
        await pilot.pause()
        assert isinstance(app.screen, HomeScreen)


@pytest.fixture
def page_of(club: Path) -> Callable[..., Any]:
    """An athlete's page, read from the book."""

    def read(who: str, *, mirrored: bool = True) -> AthleteDesk:
        screen = AthleteScreen(Look(), who, folder=club, mirrored=mirrored, benchmark="turntable")
        book, trouble = asked_in_words(club, screen._ask)
        assert (book is not None, trouble) == (True, "")
        assert book is not None
        screen.desk.know(book)
        return screen.desk

    return read


def shown(desk: AthleteDesk, columns: int = 120, rows: int = 40) -> str:
    return plain_text(draw_athlete(desk, columns, rows, Look()))


def test_a_page_plots_the_history_of_each_benchmark_and_lift(page_of: Callable[..., Any]) -> None:
    desk = page_of("ilse")
    assert "turntable   (2 of 2)" in shown(desk)
    assert "7+4" in shown(desk)
    assert sum("o" in line.partition("|")[2] for line in shown(desk).splitlines()) >= 2
    desk.sign("<right>")
    assert "front squat   (1 of 2)" in shown(desk)
    assert "67 kg" in shown(desk)


def test_attendance_and_modifications_stay_covered_on_a_mirrored_tv_until_f7(
    page_of: Callable[..., Any],
) -> None:
    desk = page_of("bram")
    assert "The last twelve weeks" not in shown(desk)
    assert "2 classes" not in shown(desk)
    desk.sign("<f7>")
    assert "The last twelve weeks" in shown(desk)
    assert "the TV shows this too" in shown(desk)
    assert "The last twelve weeks" in shown(page_of("bram", mirrored=False))


def test_bests_that_are_kept_off_the_wall_are_covered_too(
    page_of: Callable[..., Any], club: Path
) -> None:
    mark = MarkSet(athlete="ilse", mark="off the wall", on=True)
    write_down(club, [mark], local_now())
    desk = page_of("ilse")
    assert "7+4" not in shown(desk)
    desk.sign("<f7>")
    assert "7+4" in shown(desk)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("who", ["ilse", "bram"])
def test_a_page_fills_every_size_however_far_it_is_scrolled(
    size: tuple[int, int],
    who: str,
    page_of: Callable[..., Any],
    check_filled: Callable[..., None],
) -> None:
    desk = page_of(who, mirrored=False)
    for _ in range(4):
        check_filled(draw_athlete(desk, *size, Look()), *size)
        for _ in range(9):
            desk.sign("<down>")


async def test_a_book_that_can_t_be_reached_is_said_in_words(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CLASSCLOCK_BOOK", "postgresql+psycopg://coach@127.0.0.1:1/depot")
    screen = Ways(Look(), club).chart(Club())

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(screen)
        return "done"

    async with ClassclockApp(Look(), flow).run_test(size=(120, 36)) as pilot:
        await read(pilot, screen)
        assert "can't be reached" in picture(screen.desk)


async def test_who_is_here_can_be_looked_up_in_the_chart_before_the_class(club: Path) -> None:
    text = 'title = "T"\n[[segment]]\nname = "S"\nformat = "countdown"\ntime = "1:00"'
    plan, _ = parse_plan(text, "t.toml")
    assert plan is not None
    who = Ways(Look(), club).who(plan, Club(), local_now())

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(who)
        return "done"

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await read(pilot, who)
        await pilot.press(*"bram", "enter", "f6")
        await pilot.pause()
        chart = app.screen
        assert isinstance(chart, ChartScreen), chart
        await read(pilot, chart)
        assert [row.name for row in chart.desk.rows] == ["Bram", "Ilse"]
        await pilot.press("f6")
        assert [row.name for row in chart.desk.rows] == ["Bram"]
        assert chart.desk.notice == "who is here"
