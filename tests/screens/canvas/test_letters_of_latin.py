"""Every sign of Latin-1 and Latin Extended-A, and what else is typed, in all kinds of letters.

What Unicode says of a sign comes from Python's `unicodedata`: what it is made of, and by its
combining class (Unicode Standard, 4.3) whether a mark stands over the letter or under it.
"""

import unicodedata
from collections import defaultdict
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import in_ascii, line, plain_text, width
from classclock.screens.canvas.letters import dot_letters, low_letters
from classclock.screens.canvas.letters.dot_shapes import Shape
from classclock.screens.canvas.letters.lettering import Paint, draw_lettering, lettering_width
from classclock.screens.canvas.letters.mosaic import HALVES, MOSAICS, QUADRANTS
from classclock.units.cell_dots import CellDots

INK, GROUND = "#f4f1e8", "#0b0e12"
BLOCKS = [
    chr(code) for code in range(0x21, 0x180) if chr(code).isprintable()
]  # ASCII, Latin-1, Latin Extended-A
TYPED = list("\u2010\u2011\u2012\u2013\u2014\u2015\u2018\u2019\u201a\u201c\u201d\u201e")
TYPED += list("\u2020\u2021\u2022\u2026\u2032\u2033\u2039\u203a\u2044\u20ac\u2122\u2190\u2191")
TYPED += list("\u2192\u2193\u2194\u2212\u2248\u2260\u2264\u2265\u2713\u02bb\u02bc\ufb01\ufb02")
TYPED += list("\u2153\u2154\u215b\u215c\u215d\u215e\u00a0\u2009\u202f\u0218\u0219\u021a\u021b")
KINDS: dict[str, Callable[[str], Shape]] = {
    "sextants": dot_letters.dots,
    "quadrants": lambda text: low_letters.dots(text, QUADRANTS),
    "halves": lambda text: low_letters.dots(text, HALVES),
    "narrow halves": lambda text: low_letters.dots(text, HALVES, narrow=True),
}
NAMES = ("O\u2019Brien", "Łucja", "Zoë", "François", "Đorđe", "Ñuño", "Ģirts", "Nguyễn", "Ĵoão")
ALIKE = [{"0", "O"}, {"Ð", "Đ"}]
"""The nought is told by what stands beside it; the two letters have one shape in any type."""


def is_lit(rows: Shape) -> bool:
    return any("#" in row for row in rows)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("sign", [*BLOCKS, *TYPED])
def test_every_sign_has_a_shape_of_its_letters_height(kind: str, sign: str) -> None:
    small = kind == "sextants"
    assert (
        dot_letters.can_draw(sign)
        if small
        else low_letters.can_draw(sign, QUADRANTS if kind == "quadrants" else HALVES)
    )
    rows = KINDS[kind](sign)
    assert len(rows) == (dot_letters.HEIGHT if small else low_letters.HEIGHT)
    assert len({len(row) for row in rows}) == 1
    assert 1 <= len(rows[0]) <= 30
    assert is_lit(rows) != (unicodedata.category(sign) == "Zs")


@pytest.mark.parametrize("kind", KINDS)
def test_no_two_signs_of_the_blocks_have_one_shape(kind: str) -> None:
    by_shape: dict[Shape, set[str]] = defaultdict(set)
    for sign in BLOCKS:
        # Five dots are too few for small letters: they are capitals, each as its own.
        by_shape[KINDS[kind](sign)].add(sign if kind == "sextants" else sign.upper())
    # What Unicode says is made of others alone may be drawn so: IJ as I and J.
    found = [signs for signs in by_shape.values() if len(signs) > 1]
    assert [signs for signs in found if signs not in ALIKE] == []


def marked(sign: str) -> tuple[str, str] | None:
    """The letter and the one mark that a sign is made of; None if it isn't."""
    apart = unicodedata.normalize("NFD", sign)
    return (apart[0], apart[1]) if len(apart) == 2 else None


def first_lit(rows: Shape) -> int:
    return next(at for at, row in enumerate(rows) if "#" in row)


@pytest.mark.parametrize("sign", [sign for sign in BLOCKS if marked(sign)])
def test_a_mark_stands_where_unicode_says(sign: str) -> None:
    made_of = marked(sign)
    assert made_of is not None
    base, mark = made_of
    rows, plain = dot_letters.dots(sign), dot_letters.dots(base)
    # 230 is above, 202 and 220 are below. A g has its cedilla above, for want of room.
    if unicodedata.combining(mark) == 230 or base == "g":
        assert first_lit(rows) == 0
        assert len({row.count("#") for row in rows[:2]} - {0}) >= 1
    else:
        assert is_lit(rows[dot_letters.CAP :])
        assert not is_lit(plain[dot_letters.CAP :])
    assert rows != plain


@pytest.mark.parametrize("sign", [sign for sign in BLOCKS if marked(sign)])
@pytest.mark.parametrize("kind", ["quadrants", "halves", "narrow halves"])
def test_a_low_mark_stands_where_unicode_says(kind: str, sign: str) -> None:
    made_of = marked(sign.upper())
    if made_of is None:
        return  # a letter whose capital has no mark, or is two letters
    base, mark = made_of
    rows, plain = KINDS[kind](sign), KINDS[kind](base)
    assert rows != plain
    if unicodedata.combining(mark) == 230:
        assert is_lit(rows[:1])
        assert not is_lit(rows[1:2])
    else:
        assert is_lit(rows[low_letters.CAP :])


@pytest.mark.parametrize("dots", ["halves", "quadrants", "sextants"])
@pytest.mark.parametrize("rows", [3, 5, 9])
@pytest.mark.parametrize("name", NAMES)
def test_names_as_they_are_written_are_large(name: str, rows: int, dots: CellDots) -> None:
    drawn = draw_lettering(name, 200, rows, Paint(INK, GROUND, Terminal(dots=dots)))
    assert len(drawn) == rows
    assert set(plain_text(drawn)) <= {*MOSAICS[dots].characters, "\n"}


@pytest.mark.parametrize("dots", ["halves", "quadrants", "sextants"])
@pytest.mark.parametrize("rows", [3, 6, 9])
def test_a_word_without_shape_stands_on_the_line_of_the_others(rows: int, dots: CellDots) -> None:
    paint = Paint(INK, GROUND, Terminal(dots=dots))
    drawn = draw_lettering("Box, \u674e Mei", 200, rows, paint)
    assert len(drawn) == rows
    lines = plain_text(drawn).split("\n")
    (at,) = (number for number, row in enumerate(lines) if "\u674e" in row)
    assert rows // 2 <= at < rows
    before, _, after = lines[at].partition("\u674e")
    large = set(MOSAICS[dots].characters) - {" "}
    assert large & set(before)
    assert large & set(after)
    assert width(drawn) <= lettering_width("Box, \u674e Mei", rows, paint.terminal)


def test_numerals_beside_words_are_not_larger_than_their_capitals() -> None:
    paint = Paint(INK, GROUND, Terminal())
    rows = plain_text(draw_lettering("Mei \u674e 12", 200, 6, paint)).split("\n")
    after = [row.rpartition("\u674e")[2] if "\u674e" in row else row[-18:] for row in rows]
    assert not after[-1].strip(), "the letters' tails have the last row to themselves"
    assert after[-2].strip()


def test_text_of_which_nothing_is_drawn_stays_a_row() -> None:
    assert plain_text(draw_lettering("\u674e \u5065", 20, 5, Paint(INK, GROUND, Terminal()))) == (
        "\u674e \u5065"
    )


@given(
    st.text(st.sampled_from("aÉg12 \u2019½李健;"), min_size=1, max_size=14),
    st.integers(1, 120),
    st.integers(1, 12),
    st.sampled_from([Terminal(), Terminal(dots="halves"), Terminal(16, "quadrants")]),
)
@settings(deadline=None)
def test_mixed_lines_never_leave_their_box_and_are_as_wide_as_was_said(
    text: str, columns: int, rows: int, terminal: Terminal
) -> None:
    drawn = draw_lettering(text, columns, rows, Paint(INK, GROUND, terminal))
    assert 1 <= len(drawn) <= rows
    assert len({sum(segment.cell_length for segment in row) for row in drawn}) == 1
    assert width(drawn) <= columns
    if len(drawn) == rows and lettering_width(text, rows, terminal) <= columns:
        assert plain_text(drawn).strip() or not text.strip()


def test_what_is_typed_has_a_likeness_in_ascii() -> None:
    drawn = line("O\u2019Brien \u2013 5\N{MINUS SIGN}3", "#ffffff", "#000000")
    assert plain_text(in_ascii(drawn)) == "O'Brien - 5-3"
