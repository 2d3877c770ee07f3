"""Lines under each other: as large as they fit, and what matters stays."""

from collections.abc import Callable

from hypothesis import given
from hypothesis import strategies as st

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import Line, heights, stack
from classclock.screens.canvas.terminal_theme import SIXTEEN

PLAIN = Look(SIXTEEN, Terminal(16, None))
WORDS = st.lists(st.text("abcdefg 0123,", min_size=1, max_size=40), max_size=6)


@given(WORDS, st.integers(10, 120), st.integers(1, 40))
def test_a_stack_fills_its_box_whatever_is_in_it(
    check_filled: Callable[[Drawing, int, int], None], words: list[str], columns: int, rows: int
) -> None:
    lines = [Line(text, "main", keep=number) for number, text in enumerate(words)]
    check_filled(stack(lines, columns, rows, Look()), columns, rows)


def test_lines_are_larger_where_there_is_more_room() -> None:
    lines = [Line("Turntable", "title"), Line("6 box step-over", "main")]
    found = [heights(lines, *size, Look()).main for size in ((30, 6), (200, 30))]
    assert found == [1, 10]


def test_what_matters_less_goes_first() -> None:
    lines = [Line("Step down.", keep=0), Line("6 box step-over", keep=1), Line("notes", keep=5)]
    assert plain_text(stack(lines, 40, 2, PLAIN)).split("\n") == [
        "Step down.".ljust(40),
        "6 box step-over".ljust(40),
    ]
    assert plain_text(stack(lines, 40, 1, PLAIN)).strip() == "Step down."


def test_a_line_too_wide_is_broken_between_words() -> None:
    drawn = plain_text(stack([Line("both feet on the box")], 12, 3, PLAIN))
    assert [row.strip() for row in drawn.split("\n")] == ["both feet on", "the box", ""]


def test_a_number_and_its_unit_stay_together() -> None:
    drawn = plain_text(stack([Line("9 push press, 22.5 kg / 15 kg")], 26, 3, PLAIN))
    assert [row.strip() for row in drawn.split("\n")] == ["9 push press, 22.5 kg /", "15 kg", ""]
