"""An athlete's page: what the book says, the coach's keys on it, how it is drawn."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.book.changing import write_down
from classclock.book.files.changes import MarkSet
from classclock.clock.source import local_now
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.pages.athlete.athlete_desk import AthleteDesk
from classclock.screens.pages.athlete.athlete_drawing import draw_athlete
from classclock.screens.pages.athlete.athlete_screen import AthleteScreen
from classclock.screens.pages.athlete.athlete_wall_drawing import laid_out

SIZES = [(60, 18), (120, 36), (213, 60)]
FOOT = ("covered", "keys", "notice", "place", "pages")
"""What the coach reads."""


@pytest.fixture
def page_of(two_classes: Path) -> Callable[..., Any]:
    """An athlete's page, read from the book."""

    def read(who: str, *, mirrored: bool = True) -> AthleteDesk:
        screen = AthleteScreen(
            Look(), who, folder=two_classes, mirrored=mirrored, benchmark="turntable"
        )
        book, trouble = screen.ask()
        assert book is not None, trouble
        screen.know((book, trouble))
        return screen.desk

    return read


def shown(desk: AthleteDesk, columns: int = 120, rows: int = 40) -> str:
    return plain_text(draw_athlete(desk, columns, rows, Look()))


def test_a_page_plots_the_history_of_each_benchmark_and_lift(page_of: Callable[..., Any]) -> None:
    desk = page_of("ilse", mirrored=False)
    assert "Turntable   (2 of 2)" in shown(desk)
    assert "7+4" in shown(desk)
    assert sum("o" in line.partition("|")[2] for line in shown(desk).splitlines()) >= 2
    desk.sign("<right>")
    assert "Front Squat   (1 of 2)" in shown(desk)
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
    page_of: Callable[..., Any], two_classes: Path
) -> None:
    assert "7+4" in read_by_the_room(page_of("ilse"))
    mark = MarkSet(athlete="ilse", mark="off the wall", on=True)
    write_down(two_classes, [mark], local_now())
    desk = page_of("ilse")
    assert read_by_the_room(desk) == {"Ilse"}
    assert "7+4" not in shown(desk)
    desk.sign("<f7>")
    assert "7+4" in shown(desk)


@pytest.mark.parametrize("size", SIZES)
def test_the_room_reads_name_benchmarks_and_bests(
    size: tuple[int, int], page_of: Callable[..., Any]
) -> None:
    desk = page_of("ilse")
    assert read_by_the_room(desk, *size) == {"Ilse", "Turntable", "7+4", "Front Squat", "67 kg"}


def test_the_room_sees_how_it_went_beside_letters_that_it_can_read(
    page_of: Callable[..., Any],
) -> None:
    desk = page_of("ilse")
    for columns, rows in SIZES[1:]:
        laid = laid_out(desk, desk.book.page, columns - 2, rows, Look())
        assert "plot" in laid.spots
        plotted = shown(desk, columns, rows).splitlines()
        assert sum("o" in line.partition("|")[2] for line in plotted) >= 2


def read_by_the_room(desk: AthleteDesk, columns: int = 120, rows: int = 36) -> set[str]:
    """All that is drawn in letters of what the room needs, on whichever page."""
    assert desk.book is not None
    laid = laid_out(desk, desk.book.page, columns - 2, rows, Look())
    spots = [spot for page in laid.pages for name, spot in page.items() if name not in FOOT]
    return {" ".join(spot.lines) for spot in spots if spot.size >= 3 and "-" not in spot.lines[0]}


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("who", ["ilse", "bram"])
@pytest.mark.parametrize("mirrored", [False, True])
def test_a_page_fills_every_size_however_far_it_is_scrolled(
    size: tuple[int, int],
    who: str,
    *,
    mirrored: bool,
    page_of: Callable[..., Any],
    check_filled: Callable[..., None],
) -> None:
    desk = page_of(who, mirrored=mirrored)
    for _ in range(4):
        check_filled(draw_athlete(desk, *size, Look()), *size)
        for _ in range(9):
            desk.sign("<down>")


async def test_whom_the_book_knows_no_more_is_said_in_words(
    open_page: Any, two_classes: Path
) -> None:
    screen = AthleteScreen(Look(), "nobody", folder=two_classes, mirrored=True)
    async with open_page(screen) as coach:
        assert "they are in the book no more" in coach.seen
        await coach.press("right", "down", "f7", "escape")
        assert coach.pilot.app.return_value == "done"


def test_left_and_right_go_round_the_benchmarks(page_of: Callable[..., Any]) -> None:
    desk = page_of("ilse")
    names = []
    for sign in ("<right>", "<right>", "<left>"):
        desk.sign(sign)
        names.append(desk.benchmark)
    assert names == ["front squat", "turntable", "front squat"]
