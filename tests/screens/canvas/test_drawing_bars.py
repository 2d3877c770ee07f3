"""Ribbons, bars of work and strips of intervals."""

from itertools import pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.screens.canvas.bar import eighth, pieces, ticks
from classclock.screens.canvas.cells import (
    Drawing,
    beside,
    blank,
    in_ascii,
    lay_out,
    line,
    overlay,
    place,
    plain_text,
    strips,
    width,
)
from classclock.screens.canvas.interval_strip import draw_interval_strip
from classclock.screens.canvas.ribbon import draw_ribbon, draw_work
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.tally.signs import GOAL_MARK
from classclock.wall.blocks import Block
from classclock.wall.colours.theme import DARK, Theme

CAP = 16 * 60_000
SHADES = DARK.ahead

columns = st.integers(2, 200)
laps = st.lists(st.integers(1, 300_000), max_size=25)


def rounds_of(times: list[int], limit: int) -> list[Block]:
    ends = [sum(times[: count + 1]) for count in range(len(times))]
    return [Block(end) for end in ends if end <= limit]


def ribbon(
    wide: int, rounds: list[Block], elapsed: int, *, rows: int = 2, thin: bool = False
) -> Drawing:
    return draw_ribbon(
        wide, rows, cap=CAP, rounds=rounds, elapsed=elapsed, standing="ahead", theme=DARK, thin=thin
    )


def colours(drawing: Drawing, row: int = 0) -> list[str]:
    """The ground's colour of every cell."""
    found = []
    for segment in drawing[row]:
        assert segment.style is not None
        assert segment.style.bgcolor is not None
        found += [segment.style.bgcolor.name] * segment.cell_length
    return found


# -- arithmetic ----------------------------------------------------------------


@given(columns, laps, st.integers(0, CAP))
def test_blocks_add_up_to_the_elapsed_share_of_the_cap(
    wide: int, times: list[int], elapsed: int
) -> None:
    bar = pieces(wide, CAP, rounds_of(times, elapsed), elapsed, SHADES)
    total = sum(piece.end - piece.start for piece in bar)
    assert abs(total - wide * 8 * elapsed / CAP) <= 0.5


@given(columns, laps, st.integers(0, CAP))
def test_blocks_follow_each_other_without_gap(wide: int, times: list[int], elapsed: int) -> None:
    bar = pieces(wide, CAP, rounds_of(times, elapsed), elapsed, SHADES)
    assert all(one.end == other.start for one, other in pairwise(bar))
    assert not bar or bar[0].start == 0
    assert all(one.colour != other.colour for one, other in pairwise(bar))


@given(columns, laps, st.integers(0, 3 * CAP))
def test_nothing_stands_beyond_the_cap(wide: int, times: list[int], elapsed: int) -> None:
    bar = pieces(wide, CAP, rounds_of(times, elapsed), elapsed, SHADES)
    assert all(piece.end <= wide * 8 for piece in bar)
    assert eighth(CAP, CAP, wide) == wide * 8


@given(columns, st.integers(1, 40 * 60_000))
def test_ticks_stand_apart_on_whole_minutes(wide: int, cap: int) -> None:
    marks = ticks(wide, cap, 60_000)
    assert all(0 < mark < wide for mark in marks)
    assert all(other - one >= 2 for one, other in pairwise(marks))


# -- pictures ------------------------------------------------------------------


@given(st.integers(4, 150), st.integers(1, 4), laps, st.integers(0, 2 * CAP), st.booleans())
def test_a_ribbon_fills_exactly_its_box(
    wide: int,
    rows: int,
    times: list[int],
    elapsed: int,
    thin: bool,  # noqa: FBT001 - hypothesis gives it by position
) -> None:
    drawn = ribbon(wide, rounds_of(times, elapsed), elapsed, rows=rows, thin=thin)
    assert len(drawn) == rows
    assert all(sum(segment.cell_length for segment in row) == wide for row in drawn)


def test_neighbouring_rounds_alternate_and_the_one_in_progress_is_darker() -> None:
    drawn = ribbon(65, [Block(CAP // 4), Block(CAP // 2)], CAP * 3 // 4)
    seen = colours(drawn)
    assert seen[:16] == [SHADES.block] * 16
    assert seen[16:32] == [SHADES.other] * 16
    assert seen[32:48] == [SHADES.running] * 16
    assert seen[48:64] == [DARK.ground] * 16


def test_an_edge_within_a_cell_is_drawn_to_an_eighth() -> None:
    drawn = ribbon(9, [Block(CAP * 27 // 64)], CAP * 27 // 64)  # 27 eighths: 3 cells and 3/8
    assert plain_text(drawn).splitlines()[0][3] == "▍"


def test_the_line_of_the_cap_ends_every_row() -> None:
    assert {row[-1] for row in plain_text(ribbon(40, [], 0)).splitlines()} == {"▏"}


def test_a_filled_in_round_is_hatched_and_a_doubtful_one_bears_its_sign() -> None:
    rounds = [Block(CAP // 4), Block(CAP // 2, "filled in"), Block(CAP * 3 // 4, "doubtful")]
    text = plain_text(ribbon(65, rounds, CAP * 3 // 4))
    first_row = text.splitlines()[0]
    assert set(first_row[16:32]) == {"\u2571"}
    assert '"' in first_row[32:48]
    assert '"' not in first_row[:32]


def test_a_lane_that_stopped_has_no_round_in_progress() -> None:
    drawn = draw_ribbon(
        41,
        1,
        cap=CAP,
        rounds=[Block(CAP // 4)],
        elapsed=CAP // 2,
        standing="first",
        theme=DARK,
        stopped=True,
    )
    assert DARK.first.running not in colours(drawn)


def test_work_done_is_a_share_of_the_whole_with_the_finish_at_its_end() -> None:
    drawn = draw_work(
        55,
        3,
        whole=108,
        rounds=[54, 90, 108],
        done=54,
        standing="ahead",
        theme=DARK,
    )
    assert colours(drawn).count(SHADES.block) == 27
    finished = draw_work(
        55,
        3,
        whole=108,
        rounds=[54, 90, 108],
        done=108,
        standing="ahead",
        theme=DARK,
        finish="8:31",
    )
    assert plain_text(finished).splitlines()[1].endswith(" 8:31 ▏")
    assert width(finished) == 55


def test_a_moment_too_short_to_show_redraws_nothing() -> None:
    rounds = [Block(60_000)]
    assert ribbon(60, rounds, 100_000) is ribbon(60, rounds, 100_010)


def test_without_block_characters_a_ribbon_is_plain_ascii() -> None:
    drawn = draw_ribbon(
        60, 2, cap=CAP, rounds=[Block(70_001)], elapsed=99_999, standing="behind", theme=SIXTEEN
    )
    assert plain_text(in_ascii(drawn)).isascii()
    assert width(in_ascii(drawn)) == 60


# -- intervals ------------------------------------------------------------------

NUMBERS = ["14", "13", None, "12", None, None]


def strip(numbers: list[str | None], current: int | None, wide: int = 60, rows: int = 1) -> Drawing:
    return draw_interval_strip(
        wide, rows, numbers=numbers, current=current, standing="ahead", theme=DARK
    )


def test_every_interval_has_its_box_and_a_missing_number_is_asked_for() -> None:
    shown = plain_text(strip(NUMBERS, 4)).split()
    assert shown == ["14", "13", "?", "12", "▌", "▐", "6"]


def test_when_all_is_over_every_missing_number_is_asked_for() -> None:
    assert plain_text(strip(NUMBERS, None)).split() == ["14", "13", "?", "12", "?", "?"]


def test_the_current_interval_is_outlined() -> None:
    text = plain_text(strip(NUMBERS, 4, rows=4))
    assert text.count("┌") == text.count("┐") == text.count("└") == text.count("┘") == 1


def test_where_not_all_fit_those_around_the_current_one_are_shown() -> None:
    numbers = [str(number) for number in range(10, 22)] + [None] * 12
    shown = plain_text(strip(list(numbers), 12, wide=24)).split()
    assert "21" in shown
    assert "10" not in shown


@given(
    st.lists(st.none() | st.integers(0, 199).map(str), min_size=1, max_size=40),
    st.integers(8, 120),
    st.integers(1, 8),
    st.data(),
)
def test_a_strip_fills_exactly_its_box(
    numbers: list[str | None], wide: int, rows: int, data: st.DataObject
) -> None:
    current = data.draw(st.none() | st.integers(0, len(numbers) - 1))
    drawn = strip(numbers, current, wide, rows)
    assert len(drawn) == rows
    assert all(sum(segment.cell_length for segment in row) == wide for row in drawn)


# -- putting drawings together -----------------------------------------------------


@pytest.mark.parametrize("across", ["left", "middle", "right"])
@pytest.mark.parametrize("down", ["top", "middle", "bottom"])
def test_a_drawing_placed_in_a_box_has_the_boxs_size(across: str, down: str) -> None:
    drawn = line("Noor", "white", "black")
    boxed = place(drawn, 9, 3, "black", across=across, down=down)  # type: ignore[arg-type]
    rows = plain_text(boxed).splitlines()
    assert [len(row) for row in rows] == [9, 9, 9]
    at = {"top": 0, "middle": 1, "bottom": 2}[down]
    before = {"left": 0, "middle": 2, "right": 5}[across]
    assert rows[at] == (" " * before + "Noor").ljust(9)


def test_a_drawing_too_large_for_its_box_is_cut() -> None:
    assert plain_text(place(line("Saoirse", "white", "black"), 4, 1, "black")) == "Saoi"


def test_a_drawing_is_laid_over_another() -> None:
    under = blank(6, 2, "black")
    assert plain_text(overlay(under, line("ab", "white", "black"), 3, 1)).splitlines() == [
        "      ",
        "   ab ",
    ]


@given(
    st.lists(st.tuples(st.integers(0, 3), st.integers(0, 2), st.integers(1, 4)), max_size=4),
    st.randoms(),
)
def test_drawings_laid_out_stand_where_they_are_put(
    parts: list[tuple[int, int, int]], random: Random
) -> None:
    """Each in ten columns of its own, some columns in, from some row down, so many rows high."""
    put = [
        (10 * number + x, y, line("Noor", "white", "black") * high)
        for number, (x, y, high) in enumerate(parts)
    ]
    one_by_one = blank(40, 6, "black")
    for x, y, part in put:
        one_by_one = overlay(one_by_one, part, x, y)
    random.shuffle(put)
    assert plain_text(lay_out(put, 40, 6, "black")) == plain_text(one_by_one)


def test_drawings_beside_each_other_must_be_equally_high() -> None:
    with pytest.raises(ValueError, match="zip"):
        beside(blank(2, 1, "black"), blank(2, 2, "black"))


def test_strips_are_as_wide_as_the_drawing() -> None:
    made = strips(ribbon(30, [Block(50_000)], 70_000))
    assert [strip.cell_length for strip in made] == [30, 30]


@pytest.mark.parametrize("theme", [DARK, SIXTEEN], ids=lambda theme: theme.name)
@pytest.mark.parametrize("thin", [False, True])
@given(wide=st.integers(12, 120), goal=st.integers(0, CAP), elapsed=st.integers(0, CAP))
def test_a_goal_is_one_column_that_nothing_else_looks_like(
    wide: int, goal: int, elapsed: int, *, thin: bool, theme: Theme
) -> None:
    """Its shape tells it, in whatever colours: it cuts through the bar, full height."""

    def draw(at: int | None) -> list[str]:
        drawn = draw_ribbon(
            wide,
            1 if thin else 3,
            cap=CAP,
            rounds=[],
            elapsed=elapsed,
            standing="ahead",
            theme=theme,
            thin=thin,
            goal=at,
        )
        assert width(drawn) == wide
        return plain_text(drawn).split("\n")

    column = min(wide - 2, eighth(goal, CAP, wide - 1) // 8)
    for marked, plain in zip(draw(goal), draw(None), strict=True):
        assert GOAL_MARK not in plain
        assert marked == plain[:column] + GOAL_MARK + plain[column + 1 :]


def test_in_ascii_a_goal_is_no_minute() -> None:
    drawn = draw_work(
        40, 1, whole=90, rounds=(18, 36, 54, 72, 90), done=18, standing="first", theme=DARK, goal=60
    )
    text = plain_text(in_ascii(drawn))
    assert text.count("I") == 1
    assert text.index("I") == min(38, eighth(60, 90, 39) // 8)
