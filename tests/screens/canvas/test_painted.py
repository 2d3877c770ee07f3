"""What of a picture is sent to the terminal again when it changes."""

from hypothesis import given
from hypothesis import strategies as st
from rich.segment import Segment
from textual.geometry import Region
from textual.strip import Strip

from classclock.screens.canvas.cells import style
from classclock.screens.canvas.painted import region_changed

COLUMNS = 8
inks = st.sampled_from(["#f4f1e8", "#f0e442"])
rows = st.lists(st.tuples(st.sampled_from("a\u5b57 "), inks), min_size=4, max_size=4).map(
    lambda signs: Strip(
        [
            Segment(sign.ljust(2) if sign.isascii() else sign, style(ink, "#000000"))
            for sign, ink in signs
        ],
        COLUMNS,
    )
)
pictures = st.lists(rows, min_size=3, max_size=3)


@given(pictures, pictures)
def test_outside_of_what_is_sent_again_nothing_has_changed(
    before: list[Strip], after: list[Strip]
) -> None:
    changed = region_changed(before, after)
    if changed is None:
        assert before == after
        return
    assert Region(0, 0, COLUMNS, 3).contains_region(changed)
    for y, (one, other) in enumerate(zip(before, after, strict=True)):
        if not changed.y <= y < changed.bottom:
            assert one == other
            continue
        spans = (0, changed.x), (changed.right, COLUMNS)
        for start, end in spans:
            assert one.crop(start, end) == other.crop(start, end)


@given(pictures, pictures)
def test_no_more_is_sent_than_the_rows_and_columns_that_changed(
    before: list[Strip], after: list[Strip]
) -> None:
    changed = region_changed(before, after)
    if changed is not None:
        for row in (changed.y, changed.bottom - 1):
            assert before[row] != after[row]
        for x in (changed.x, changed.right - 2):  # a sign here is two cells wide
            assert any(
                one.crop(x, x + 2) != other.crop(x, x + 2)
                for one, other in zip(before, after, strict=True)
            )


@given(pictures)
def test_nothing_is_sent_for_the_same_picture(picture: list[Strip]) -> None:
    assert region_changed(picture, list(picture)) is None
