"""The chart, without a screen: the coach's keys on it, and how it is drawn."""

from collections.abc import Callable
from datetime import datetime
from decimal import Decimal
from typing import Any

import pytest

from classclock.book.tables.queries import Athlete, Best
from classclock.machine.terminal import Terminal
from classclock.records.result import Result, Terms, day_moment, load_worth, rounds_worth
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.pages.chart.chart_desk import ChartBook, ChartDesk
from classclock.screens.pages.chart.chart_drawing import draw_chart
from classclock.screens.pages.chart.chart_layout import chart_block, score_words
from classclock.wall.colours.theme import LIGHT

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


def scores(desk: ChartDesk) -> dict[str, str]:
    """What stands beside each name on the benchmark that is highlighted."""
    at = desk.across.at
    return {row.name: score_words(row.cells[at], off=desk.kept_off(row)) for row in desk.rows}


def test_new_this_month_and_modified_are_told_by_a_sign_not_by_colour_alone(
    desk: ChartDesk,
) -> None:
    assert scores(desk)["Ilse"] == "9+3*"
    press(desk, "<right>")
    assert (scores(desk)["Ilse"], scores(desk)["Bram"]) == ("7+3", "~8+3")


def test_the_highlighted_best_is_told_in_words(desk: ChartDesk) -> None:
    press(desk, "<down>", "<right>")
    assert desk.detail == "Ilse, turntable: 7+3 on 2 October 2026; as written; 22.5 kg; 16:00"


def test_a_lift_is_told_by_its_sets_and_sorted_by_the_estimated_maximum() -> None:
    def lifted(who: str, kg: int, reps: str, day: str) -> Best:
        made = Result(
            *(who, "Squat", "squat", day, day_moment(day), f"{kg} kg", "load"),
            *(load_worth(Decimal(kg)), None, Terms(work=reps)),
        )
        return Best(made, 1, made.moment)

    bests = {
        ("bram", "squat"): [lifted("bram", 72, "1 rep", "2026-11-03")],
        ("ilse", "squat"): [
            lifted("ilse", 60, "1 rep", "2026-11-24"),
            lifted("ilse", 70, "3 reps", "2026-10-02"),
            lifted("ilse", 65, "5 reps", "2026-11-10"),
        ],
    }
    desk = ChartDesk(mirrored=False)
    desk.know(ChartBook((athlete("Bram"), athlete("Ilse")), bests, "2026-11"))
    assert press(desk, "<tab>") == ["Ilse", "Bram"]
    # Brzycki: 70 x 36/34.
    said = "70 kg x 3 on 2 October 2026; about 74; as written; also 65 kg x 5*"
    assert desk.detail == f"Ilse, Squat: {said}"
    assert scores(desk) == {"Ilse": "70 kg x 3+", "Bram": "72 kg x 1*"}
    assert "by Squat, highest estimated maximum first" in picture(desk)


def test_who_keeps_bests_off_the_wall_has_a_dash_where_the_room_sees_it(desk: ChartDesk) -> None:
    press(desk, "<right>", "<end>")
    assert desk.detail == "Noor, turntable: kept off the wall"
    assert scores(desk)["Noor"] == "-"
    block = chart_block(desk, (), 118, 36, Look())
    assert block.laid.spots["score", 2].lines == ("-",)
    desk.mirrored = False
    assert desk.detail.startswith("Noor, turntable: 9+3")
    assert scores(desk)["Noor"] == "9+3"


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("count", [4, 12, 26, 300])
def test_names_and_bests_are_drawn_large_whoever_is_highlighted(
    size: tuple[int, int], count: int
) -> None:
    people = tuple(athlete(f"Tram {n:03d}") for n in range(count))
    bests = {
        (one.id, "turntable"): [best(one.id, "turntable", 12, "2026-11-03", MODIFIED)]
        for one in people
    }
    desk = ChartDesk(mirrored=True)
    desk.know(ChartBook(people, bests, "2026-11"))
    for _ in range(3):
        press(desk, *["<down>"] * (count // 3))
        at = desk.search.cursor.at
        block = chart_block(desk, (), size[0] - 2, size[1], Look())
        assert min(block.laid.sizes[what] for what in ("name", "score", "benchmark")) >= 3
        assert block.page_of(at)["name", at - block.first].lines == (f"Tram {at:03d}",)


def test_the_highlight_stays_within_the_chart(desk: ChartDesk) -> None:
    press(desk, "<up>", "<left>", "<pageup>")
    assert (desk.search.cursor.at, desk.across.at) == (0, 0)
    press(desk, "<end>", "<down>", *["<right>"] * 5)
    assert (desk.search.cursor.at, desk.across.at) == (2, 1)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("look", [Look(), Look(LIGHT), Look(SIXTEEN, Terminal(16, "quadrants"))])
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
    block = chart_block(desk, (), size[0] - 2, size[1], look)
    assert block.page_of(180)["name", 180 - block.first].lines == (names[180],)
    assert block.laid.spots["benchmark"].lines == ("piece 47",)
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
