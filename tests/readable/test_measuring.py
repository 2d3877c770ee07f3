"""How what is seen is measured, against arithmetic by hand and the letters' own dots."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.screens.canvas.cells import above, place
from classclock.screens.canvas.look import Look
from classclock.units.cell_dots import CellDots
from readable.bound import bounds
from readable.finding import pieces, standing
from readable.heights import capital_rows, minutes
from readable.made_class import Kind, Seen, Size
from readable.marked_look import MarkedLook, Said, marked
from readable.room_texts import Wanted, first

LOOK = Look()


def said(text: str, rows: int, dots: CellDots = "sextants") -> Said:
    look = Look().with_dots(dots)
    drawn = look.letters(text, 999, rows) if rows > 1 else look.text(text, len(text))
    return Said(text, 999, rows, 0, look.theme.ink, look.theme.ground, drawn)


@pytest.mark.parametrize(
    ("rows", "of", "angle"),
    [
        # By hand. 55 inches at 16:9 are 55 x 25.4 x 9 / sqrt(337) = 684.89 mm high, a row of 36 is
        # 19.025 mm; at 10 m that is 0.0019025 rad = 6.54 minutes of arc. Letters of 5 x 7 dots are
        # 7/3 rows of sextants, 7/2 of quadrants.
        (1, 36, 6.54),
        (7 / 3, 36, 15.26),
        (7 / 2, 36, 22.89),
        (1, 60, 3.92),
    ],
)
def test_an_angle_is_as_by_hand(rows: float, of: int, angle: float) -> None:
    assert minutes(rows, of) == pytest.approx(angle, abs=0.01)


@pytest.mark.parametrize(
    ("text", "rows", "dots", "high"),
    [
        # Dot letters: 5 x 7 dots of sextants, so 7/3 rows whatever reaches below the line.
        ("Noor", 3, "sextants", 7 / 3),
        ("Jory", 3, "sextants", 7 / 3),
        ("row", 3, "sextants", 7 / 3),
        # Capitals alone, five dots of two to a row.
        ("NOOR", 3, "quadrants", 5 / 2),
        ("NOOR", 3, "halves", 5 / 2),
    ],
)
def test_a_capital_of_dots_is_measured_to_the_dot(
    text: str, rows: int, dots: CellDots, high: float
) -> None:
    assert capital_rows(said(text, rows, dots)) == pytest.approx(high, abs=0.01)


@pytest.mark.parametrize("rows", [6, 9, 12, 20])
def test_a_capital_in_outline_is_as_high_as_its_font_says(rows: int) -> None:
    # Source Sans Pro Bold: a capital has 660 of the 917 units from the highest to the lowest ink.
    assert capital_rows(said("Noor", rows)) == pytest.approx(rows * 660 / 917, abs=0.5)


def test_terminal_text_is_as_high_as_a_font_s_capitals() -> None:
    assert capital_rows(said("Noor", 1)) == pytest.approx(0.65)


def seen(look: MarkedLook, *rows: tuple[str, int, int]) -> Seen:
    """A screen of texts under each other, each with its rows and columns; 40 x 10 cells."""
    drawn = [
        place(look.letters(text, 40, high), wide, high, "#000000") for text, high, wide in rows
    ]
    page = place(above(*(place(one, 40, len(one), "#000000") for one in drawn)), 40, 10, "#000000")
    return Seen(Kind(1, 0), "board", Size(40, 10), (page,), (), look.ledger)


def test_a_text_is_found_where_it_is_largest_and_in_several_pieces_if_need_be() -> None:
    screen = seen(marked(LOOK), ("box step-over", 1, 40), ("box", 3, 40), ("step-over", 3, 40))
    every = pieces(screen)
    ((whole,), both, missing) = standing(every, ["box step-over", "step-over box", "row"])
    assert whole.rows == 1
    assert {piece.said.text for piece in both} == {"box", "step-over"}
    assert missing == ()


def test_a_text_that_is_needed_twice_has_two_places() -> None:
    screen = seen(marked(LOOK), ("7", 3, 40), ("7", 1, 40))
    found = standing(pieces(screen), ["7", "7", "7"])
    assert [places[0].rows if places else 0 for places in found] == [3, 1, 0]


def test_a_number_within_another_is_not_that_number() -> None:
    screen = seen(marked(LOOK), ("47.5", 3, 40), ("7+5", 3, 40))
    assert standing(pieces(screen), ["5", "47", "7"]) == [(), (), ()]


def test_what_is_cut_or_covered_is_not_there() -> None:
    look = marked(LOOK)
    cut = seen(look, ("Noor", 3, 8))
    assert standing(pieces(cut), ["Noor"]) == [()]
    shortened = look.text("Wilhelmina", 6)
    page = place(shortened, 40, 10, "#000000")
    screen = Seen(Kind(1, 0), "board", Size(40, 10), (page,), (), look.ledger)
    assert standing(pieces(screen), ["Wilhelmina"]) == [()]


NAMES = tuple(f"Uri{sign}" for sign in "abcdefghijkl")


def test_the_bound_is_what_can_be_seen_to_fit() -> None:
    # Four names of four letters in 16 rows: one under the other, four rows each, of which letters
    # take three. With two columns of names they have eight each.
    high = bounds((Wanted("name", NAMES[:4]),), ("name",), 30, 17, "sextants")["name"]
    assert high == pytest.approx(7 / 3)
    assert bounds((Wanted("name", NAMES[:4]),), ("name",), 200, 17, "sextants")["name"] > 5
    assert bounds((Wanted("name", NAMES),), ("name",), 20, 14, "sextants")["name"] == pytest.approx(
        0.65
    )
    assert bounds((Wanted("name", NAMES),), ("name",), 10, 7, "sextants") == {}


@settings(max_examples=40, deadline=None)
@given(st.integers(40, 120), st.integers(12, 40), st.integers(1, 12))
def test_a_larger_box_bounds_the_smallest_no_lower(columns: int, rows: int, count: int) -> None:
    texts = (Wanted("clock", ("12:34",)), Wanted("name", NAMES[:count]), Wanted("set", ("5 row",)))
    small = bounds(texts, first("running"), columns, rows, "sextants")
    large = bounds(texts, first("running"), columns + 30, rows + 10, "sextants")
    assert min(small.values(), default=0) <= min(large.values(), default=0)
