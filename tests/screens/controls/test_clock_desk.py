"""The line that says a clock, without a screen: what it comes to, and how it is scored."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.reading.clock_forms import FORMS
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.controls.clock_desk import ClockDesk
from classclock.screens.controls.clock_drawing import clock_rows, draw_clock


def typed(line: str, *signs: str) -> ClockDesk:
    desk = ClockDesk()
    for sign in (*line, *signs):
        desk.sign("<space>" if sign == " " else sign)
    return desk


def drawn(desk: ClockDesk, columns: int = 56, screen: int = 18) -> str:
    rows = clock_rows(desk, columns, screen)
    return plain_text(draw_clock(desk, columns, rows, Look(), left="escape leaves"))


def scored(desk: ClockDesk) -> str:
    assert desk.way is not None
    return desk.way.scored


def test_nothing_that_is_typed_but_enter_runs_anything() -> None:
    desk = typed("rounds 12")
    assert scored(desk) == "rounds"
    segment = desk.entered()
    assert segment is not None
    assert (segment.name, segment.format) == ("Rounds 12:00", "rounds-in-time")


def test_tab_goes_through_the_scores_and_shift_tab_back() -> None:
    desk = typed("rounds 12")
    seen = []
    for _ in range(5):
        desk.sign("<tab>")
        seen.append(scored(desk))
    assert seen == ["reps", "load", "not scored", "rounds", "reps"]
    desk.sign("<shift+tab>")
    desk.sign("<shift+tab>")
    assert scored(desk) == "not scored"


def test_a_score_that_was_chosen_stays_while_the_line_changes_as_long_as_it_can() -> None:
    desk = typed("down 5", "<tab>", "<tab>")
    assert scored(desk) == "load"
    desk.sign("0")
    assert (desk.line.text, scored(desk)) == ("down 50", "load")
    desk.sign("<ctrl+u>")
    for sign in "for time 9":
        desk.sign("<space>" if sign == " " else sign)
    assert scored(desk) == "time"


def test_tab_on_a_line_that_says_nothing_does_nothing() -> None:
    desk = typed("turn", "<tab>")
    assert desk.way is None
    assert desk.line.text == "turn"


def test_what_cant_be_read_runs_nothing_and_is_said_until_the_next_key() -> None:
    desk = typed("runds 12")
    assert desk.entered() is None
    assert 'is no clock: write "rounds 12"' in drawn(desk)
    desk.sign("<backspace>")
    assert "is no clock" not in drawn(desk)


def test_every_form_is_shown_whatever_is_typed_and_what_it_comes_to() -> None:
    for line in ("", "8 x", "8 x 20/10"):
        seen = drawn(typed(line))
        assert all(form in seen for form in FORMS)
    assert "8 x 0:20 work, 0:10 rest, 3:50 in all" in drawn(typed("8 x 20/10"))
    assert "[not scored]  reps in all   lowest reps   load" in drawn(typed("8 x 20/10"))
    assert "tab: the score" in drawn(typed("8 x 20/10"))
    assert "tab" not in drawn(typed("for time 15")), "there is one score alone"


@pytest.mark.parametrize(("columns", "screen"), [(56, 18), (116, 36), (209, 60), (40, 10)])
@given(line=st.text(max_size=80), then=st.sampled_from(["", "enter"]))
def test_it_fills_its_box_whatever_is_typed(
    columns: int, screen: int, line: str, then: str, check_filled: Callable[..., None]
) -> None:
    desk = typed(line)
    if then == "enter":
        desk.entered()
    rows = clock_rows(desk, columns, screen)
    check_filled(draw_clock(desk, columns, rows, Look(), left="escape leaves"), columns, rows)
