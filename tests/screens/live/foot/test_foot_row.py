"""The row at the foot: what is said, the keys beside it, the sign that is always there."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.live.foot.foot_row import FootContent, set_row, words_room
from classclock.screens.live.foot.notice_line import draw_foot
from classclock.screens.live.foot.wordings import row_parts
from classclock.wall.notices.turns import Shown

KEYS = ("space holds", "? keys", "backspace takes it back")
NARROW, WIDE = 41, 101
"""Columns beside the time of day, in a window of 60 and one of 120."""
TEXTS = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "Zs")), max_size=200)


@given(TEXTS, st.sampled_from(["", "2 of 3", "10 of 12"]), st.booleans(), st.integers(NARROW, 200))
def test_the_row_is_full_and_the_emergency_sign_is_always_there(
    check_filled: Callable[[Drawing, int, int], None],
    said: str,
    count: str,
    stands: bool,  # noqa: FBT001  hypothesis hands it over
    columns: int,
) -> None:
    for part in row_parts((said,), words_room(columns, count)):
        shown = Shown(part, count, stands=stands, in_turn=True)
        drawn = draw_foot(FootContent(shown, KEYS), columns, Look())
        check_filled(drawn, columns, 1)
        text = plain_text(drawn)
        assert text.rstrip().endswith("! emergency card" if columns >= 80 else "! card")
        assert part in text
        assert count in text


@given(TEXTS, st.integers(10, 120))
def test_parts_fit_the_row_and_say_every_word(said: str, room: int) -> None:
    parts = row_parts((said,), room)
    assert all(cell_len(part) <= room for part in parts)
    assert "".join("".join(parts).split()) == "".join(said.split())


def test_the_fullest_wording_that_fits_is_taken() -> None:
    wordings = ("press !, then tab: the emergency card is not filled in", "the card is empty")
    assert row_parts(wordings, 60) == wordings[:1]
    assert row_parts(wordings, 30) == wordings[1:]
    assert row_parts(wordings, 10) == ("the card", "is empty")


def test_parts_end_where_a_clause_does_if_that_makes_them_no_more() -> None:
    held = "held: space resumes, enter ends the segment here"
    assert row_parts((held,), 31) == ("held: space resumes,", "enter ends the segment here")
    again = "n again within 1.2 s: not counted"
    assert row_parts((again,), 31) == ("n again within 1.2 s:", "not counted")


@pytest.mark.parametrize(("columns", "keys"), [(NARROW, KEYS[:1]), (WIDE, KEYS[:2])])
def test_what_was_read_leaves_room_for_the_weightiest_keys(
    columns: int, keys: tuple[str, ...]
) -> None:
    said = "not settled yet: Bram, Noor, Piet, Tuva and 4 more. Type their odd reps, or enter again"
    row = set_row(FootContent(Shown(said), KEYS), columns)
    assert row.said.endswith(" …")
    assert all(key in row.right for key in keys)


def test_what_is_to_be_read_now_is_whole_and_keys_have_what_is_left() -> None:
    row = set_row(FootContent(Shown("Noor, round 4, 6:20", in_turn=True), KEYS), NARROW)
    assert (row.said, row.right) == ("Noor, round 4, 6:20", "! card")
    row = set_row(FootContent(Shown("Noor, round 4, 6:20", in_turn=True), KEYS), WIDE)
    assert row.right == "space holds    ? keys    backspace takes it back    ! emergency card"
