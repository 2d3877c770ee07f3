"""A line of text that is typed: whatever the keys, the caret stays in it."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.controls.typed_drawing import draw_typed, draw_typed_at_end
from classclock.screens.controls.typed_line import TypedLine
from classclock.units.printable import can_be_shown

EDITS = ("<backspace>", "<delete>", "<left>", "<right>", "<home>", "<end>", "<ctrl+u>", "<space>")
signs = st.lists(st.sampled_from((*EDITS, "<f7>", "<enter>", "a", "é")) | st.characters())
shown = st.text(st.characters(categories=["L", "N"]), max_size=20)


@given(text=st.text(max_size=40), fresh=st.booleans(), longest=st.integers(0, 30), typed=signs)
def test_the_caret_stays_in_the_line_and_the_line_within_its_length(
    text: str, *, fresh: bool, longest: int, typed: list[str]
) -> None:
    line = TypedLine.of(text, fresh=fresh, longest=longest)
    for sign in typed:
        before = line.text
        meant = line.sign(sign)
        assert 0 <= line.caret <= len(line.text)
        assert len(line.text) <= max(longest, len(before))
        assert meant or line.text == before
        assert not (meant and line.fresh)


@given(shown, shown)
def test_what_is_typed_stands_where_the_caret_is(before: str, after: str) -> None:
    line = TypedLine()
    for sign in after:
        line.sign(sign)
    line.sign("<home>")
    for sign in before:
        assert line.sign(sign)
    assert (line.text, line.caret) == (before + after, len(before))


@given(shown, signs)
def test_typed_at_its_end_a_line_is_a_stack_of_signs(text: str, typed: list[str]) -> None:
    """The model: a list that grows and shrinks at its end."""
    line, model = TypedLine.of(text), list(text)
    for sign in typed:
        if sign == "<backspace>":
            del model[-1:]
        elif sign == "<ctrl+u>":
            model = []
        elif sign == "<space>":
            model.append(" ")
        elif len(sign) == 1 and can_be_shown(sign):
            model.append(sign)
        line.sign_at_end(sign)
        assert line.text == "".join(model)
        assert line.caret == len(line.text)


@given(shown, shown)
def test_backspace_and_delete_take_the_signs_beside_the_caret(before: str, after: str) -> None:
    line = TypedLine(before + after, len(before))
    line.sign("<delete>")
    line.sign("<backspace>")
    assert line.text == before[:-1] + after[1:]


def test_the_first_sign_takes_the_place_of_a_fresh_text_and_an_arrow_keeps_it() -> None:
    line = TypedLine.of("8:00", fresh=True)
    assert line.sign("9")
    assert line.text == "9"
    line = TypedLine.of("8:00", fresh=True)
    line.sign("<left>")
    line.sign("5")
    assert line.text == "8:050"


def test_several_signs_are_typed_as_far_as_there_is_room_and_none_where_one_moves_the_cursor() -> (
    None
):
    line = TypedLine(longest=5)
    assert not line.type("a\x1b[2J")
    assert line.type("abcdefgh")
    assert line.text == "abcde"
    assert line.full
    assert not line.type("x")


@given(st.text())
def test_what_is_pasted_is_one_line_of_what_can_be_shown(pasted: str) -> None:
    line = TypedLine()
    typed = line.paste(pasted)
    assert typed == bool(line.text)
    assert can_be_shown(line.text)
    wanted = "".join(sign for sign in " ".join(pasted.split()) if can_be_shown(sign))
    assert line.text == wanted[: line.longest]


@given(st.text(max_size=40), st.integers(4, 40), st.data())
def test_a_line_fills_its_columns_wherever_the_caret_is(
    text: str, columns: int, data: st.DataObject
) -> None:
    line = TypedLine(text, data.draw(st.integers(0, len(text))))
    for drawn in (draw_typed(line, columns, Look()), draw_typed_at_end("find", text, 60, Look())):
        (row,) = drawn
        assert sum(segment.cell_length for segment in row) in (columns, 60)


def test_a_wide_name_stands_there_whole() -> None:
    assert plain_text(draw_typed_at_end("find", "電車庫", 30, Look())).startswith("find: 電車庫 ")


def test_the_caret_is_seen_within_signs_that_are_joined() -> None:
    # Unicode Standard, 23.2: the joiner between the two signs takes no room of its own.
    line = TypedLine.of("Tuva 👩\u200d🚒")
    line.caret -= 2
    (row,) = draw_typed(line, 30, Look())
    ink = Look().theme.ink
    grounds = [(one.text, one.style.bgcolor.name) for one in row if one.style and one.style.bgcolor]
    assert [text for text, ground in grounds if ground == ink] == ["🚒"]
