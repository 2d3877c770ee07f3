"""Letters and digits: outline type, dot letters, plain blocks, and the choice between them."""

import string
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.machine.terminal import ALL, Colours, Terminal
from classclock.screens.canvas.cells import Drawing, in_ascii, line, plain_text, width
from classclock.screens.canvas.letters import dot_letters, low_letters, outline_type, plain_blocks
from classclock.screens.canvas.letters.lettering import Paint, draw_lettering
from classclock.screens.canvas.letters.mosaic import (
    HALVES,
    MOSAICS,
    QUADRANTS,
    SEXTANTS,
    Mosaic,
    from_dots,
    two_tones,
)
from classclock.units.cell_dots import CellDots
from classclock.units.printable import printable
from classclock.wall.colours.mixing import mix

INK, GROUND = "#f4f1e8", "#0b0e12"
PAINT = Paint(INK, GROUND, Terminal())
NAMES = ("Ilse", "Šime", "Łucja", "Måns", "Søren", "Ñandú", "Zoë", "Çağla", "René", "Jörg", "Íñigo")


def lit(drawing: Drawing, mosaic: Mosaic) -> list[str]:
    """The drawing as dots again, `#` where at least half of the dot is ink."""
    half = int(mix(GROUND, INK, 128)[1:3], 16)
    rows: list[str] = []
    for row in drawing:
        cells = [
            (mosaic.characters.index(character), segment.style)
            for segment in row
            for character in segment.text
        ]
        for y in range(mosaic.down):
            dots = ""
            for number, style in cells:
                assert style is not None
                assert style.color is not None
                assert style.bgcolor is not None
                for x in range(mosaic.across):
                    on = number >> (y * mosaic.across + x) & 1
                    colour = style.color if on else style.bgcolor
                    assert colour.triplet is not None
                    dots += "#" if colour.triplet.red >= half else "."
            rows.append(dots)
    return rows


def ink_size(dots: list[str]) -> tuple[int, int]:
    """Width and height of what is lit, in dots."""
    columns = [x for row in dots for x, dot in enumerate(row) if dot == "#"]
    high = [y for y, row in enumerate(dots) if "#" in row]
    return max(columns) - min(columns) + 1, max(high) - min(high) + 1


# -- proportions: width to height 0.5 to 1, preferred 0.7 to 0.9 (ISO 9241-3) --


@pytest.mark.parametrize("rows", range(4, 21))
@pytest.mark.parametrize("digit", list("023456789"))
def test_large_digits_have_the_standards_proportions(digit: str, rows: int) -> None:
    wide, high = ink_size(lit(outline_type.draw_text(digit, rows, INK, GROUND, SEXTANTS), SEXTANTS))
    # A sextant's dot is half a cell wide and a third of two cell widths high.
    assert 0.6 <= (wide / 2) / (high * 2 / 3) <= 0.9


@pytest.mark.parametrize("rows", range(4, 21))
def test_large_digits_fill_their_rows(rows: int) -> None:
    for digit in string.digits:
        drawn = lit(outline_type.draw_text(digit, rows, INK, GROUND, SEXTANTS), SEXTANTS)
        assert ink_size(drawn)[1] == rows * 3, digit


@pytest.mark.parametrize("character", list(string.ascii_uppercase + string.digits))
def test_dot_capitals_and_digits_are_of_more_than_five_by_seven_dots(character: str) -> None:
    # ISO 9241-3: at least 5 x 7 dots for digits and capitals. The I and the 1 are narrower in any
    # letter.
    wide, high = ink_size(list(dot_letters.dots(character)))
    assert high == 7 if character != "Q" else high >= 7
    assert wide >= (4 if character in "I1" else 5)
    if character not in "IMW":
        assert 0.5 <= (wide / 2) / (7 * 2 / 3) <= 1


@pytest.mark.parametrize("rows", range(3, 21))
def test_plain_digits_have_the_standards_proportions(rows: int) -> None:
    wide = plain_blocks.text_width("8", rows)
    assert 0.5 <= wide / (2 * rows) <= 1


@pytest.mark.parametrize(
    ("rows", "signs"),
    [(rows, False) for rows in range(3, 21)] + [(rows, True) for rows in range(5, 21)],
)
def test_no_two_plain_digits_look_alike(rows: int, *, signs: bool) -> None:
    assert plain_blocks.fit_rows("8", 80, rows, signs=signs) == rows
    drawn = {
        plain_text(plain_blocks.draw_text(digit, rows, INK, GROUND, signs=signs))
        for digit in string.digits
    }
    assert len(drawn) == 10


def test_digits_of_signs_too_low_to_tell_apart_are_not_drawn() -> None:
    assert plain_blocks.fit_rows("8", 80, 4, signs=True) == 0
    ascii_only = Terminal(16, None)
    assert plain_text(draw_lettering("8", 80, 4, Paint("white", "black", ascii_only))) == "8"


def test_no_two_dot_letters_look_alike() -> None:
    signs = string.ascii_letters + string.digits.replace("0", "") + "+-:.,/?!"
    assert len({dot_letters.dots(sign) for sign in signs}) == len(signs)


# -- names --------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_names_with_accents_are_drawn_in_both_letters(name: str) -> None:
    plain = "".join(c for c in unicodedata.normalize("NFD", name) if not unicodedata.combining(c))
    assert dot_letters.can_draw(name)
    assert outline_type.can_draw(name)
    if plain != name:
        assert dot_letters.dots(name) != dot_letters.dots(plain)
    assert len(draw_lettering(name, 60, 3, PAINT)) == 3
    assert len(draw_lettering(name, 90, 6, PAINT)) == 6


@pytest.mark.parametrize("letter", list("éèêëñšžčřåäöüóíýúàâçşğőűūėįąęţŠÉÅÑÖÜŽÇ"))
def test_an_accent_leaves_the_letter_its_nine_dots(letter: str) -> None:
    rows = dot_letters.dots(letter)
    assert len(rows) == dot_letters.HEIGHT
    assert len({len(row) for row in rows}) == 1
    plain = unicodedata.normalize("NFD", letter)[0]
    assert rows != dot_letters.dots(plain)
    assert len({dot_letters.dots(c) for c in "eéèêëē"}) == 6


def test_composed_and_decomposed_accents_are_the_same_letter() -> None:
    decomposed = unicodedata.normalize("NFD", "René")
    assert dot_letters.dots(decomposed) == dot_letters.dots("René")


def test_outline_type_has_all_that_ascii_prints() -> None:
    """They are told by their code alone: this is asked of every name before the first paint."""
    signs = "".join(map(chr, range(0x21, 0x7F)))
    assert [sign for sign in signs if not outline_type._has(sign)] == []
    assert not outline_type._has("\u5065")
    assert outline_type.can_draw(signs)


@pytest.mark.parametrize("end", ["\n", "\r", "\x85", "\u2028", "\u2029"])
def test_what_ends_a_line_is_no_letter(end: str) -> None:
    assert not outline_type.can_draw(f"Ä{end}b")
    assert "\\" in plain_text(draw_lettering(f"Ä{end}b", 60, 6, PAINT))


def test_a_name_that_no_letter_can_draw_comes_as_terminal_text() -> None:
    assert not outline_type.can_draw("健太")
    assert not dot_letters.can_draw("健太")
    drawn = draw_lettering("健太", 20, 5, PAINT)
    assert plain_text(drawn) == "健太"
    assert width(drawn) == 4


def test_text_too_long_for_any_letter_is_cut_to_the_box() -> None:
    drawn = draw_lettering("Wilhelmina", 6, 3, PAINT)
    assert plain_text(drawn) == "Wilhel"


@given(
    st.text(st.sampled_from(string.ascii_letters + string.digits + "éñłš :+-."), min_size=1),
    st.integers(1, 120),
    st.integers(1, 20),
    st.sampled_from(
        [
            Terminal(),
            Terminal(16),
            Terminal(dots="quadrants"),
            Terminal(dots="halves"),
            Terminal(16, "halves"),
            Terminal(256, "quadrants"),
            Terminal(16, None),
        ]
    ),
)
@settings(deadline=None)
def test_letters_never_leave_their_box(
    text: str, columns: int, rows: int, terminal: Terminal
) -> None:
    drawn = draw_lettering(text, columns, rows, Paint(INK, GROUND, terminal))
    assert 1 <= len(drawn) <= rows
    assert len({sum(segment.cell_length for segment in row) for row in drawn}) == 1
    assert width(drawn) <= columns


@given(st.text(st.sampled_from(string.digits + ":+. "), min_size=1, max_size=8))
def test_a_terminal_that_knows_ascii_only_gets_ascii_only(text: str) -> None:
    plain = Terminal(16, None)
    assert plain_text(draw_lettering(text, 100, 8, Paint("white", "black", plain))).isascii()


# -- ticking ------------------------------------------------------------------


@pytest.mark.parametrize("rows", range(4, 21))
def test_all_digits_are_of_one_width(rows: int) -> None:
    assert len({outline_type.text_width(digit, rows) for digit in string.digits}) == 1


def test_a_tick_draws_only_digits_not_seen_before() -> None:
    outline_type._draw.cache_clear()
    for second in range(60):
        outline_type.draw_text(f"4:{second:02}", 9, INK, GROUND)
    seen = outline_type._draw.cache_info()
    assert seen.misses == 11  # ten digits and the colon
    assert seen.hits == 60 * 4 - 11


def test_the_same_word_is_drawn_once() -> None:
    outline_type._draw.cache_clear()
    first = outline_type.draw_text("Saoirse", 6, INK, GROUND)
    assert outline_type.draw_text("Saoirse", 6, INK, GROUND) is first


def test_air_below_leaves_dots_free() -> None:
    drawn = lit(outline_type.draw_text("88", 5, INK, GROUND, SEXTANTS, air=2), SEXTANTS)
    assert drawn[-2:] == ["." * len(drawn[0])] * 2
    assert "#" in drawn[-3]


@given(st.text(st.sampled_from(string.digits + ":"), min_size=1, max_size=8), st.integers(8, 200))
def test_the_fitted_height_is_the_largest_that_fits(text: str, columns: int) -> None:
    rows = outline_type.fit_rows(text, columns, 30)
    assert rows == 0 or outline_type.text_width(text, rows) <= columns
    assert rows == 30 or outline_type.text_width(text, rows + 1) > columns


# -- cells --------------------------------------------------------------------


def test_sextants_are_named_by_unicode_as_they_are_lit() -> None:
    # Unicode names every sextant by the numbers of its lit cells, e.g. BLOCK SEXTANT-135.
    for number, character in enumerate(SEXTANTS.characters):
        if ord(character) >= 0x1FB00:
            cells = "".join(str(at + 1) for at in range(6) if number >> at & 1)
            assert unicodedata.name(character) == f"BLOCK SEXTANT-{cells}"


def test_quadrants_are_named_by_unicode_as_they_are_lit() -> None:
    places = ("UPPER LEFT", "UPPER RIGHT", "LOWER LEFT", "LOWER RIGHT")
    for number, character in enumerate(QUADRANTS.characters):
        name = unicodedata.name(character)
        if name.startswith("QUADRANT"):
            listed = name.removeprefix("QUADRANT ").split(" AND ")
            assert {places.index(place) for place in listed} == {
                at for at in range(4) if number >> at & 1
            }


def test_block_elements_are_named_by_unicode_as_they_are_lit() -> None:
    named = {
        "SPACE": "....",
        "UPPER HALF BLOCK": "##..",
        "LOWER HALF BLOCK": "..##",
        "LEFT HALF BLOCK": "#.#.",
        "RIGHT HALF BLOCK": ".#.#",
        "FULL BLOCK": "####",
    }
    for mosaic in (HALVES, QUADRANTS, SEXTANTS):
        dots = range(mosaic.across * mosaic.down)
        for number, character in enumerate(mosaic.characters):
            shown = "".join("#" if number >> at & 1 else "." for at in dots)
            if (quarters := named.get(unicodedata.name(character))) is None:
                continue
            rows = [shown[at : at + mosaic.across] for at in dots[:: mosaic.across]]
            corners = rows[0][0] + rows[0][-1] + rows[-1][0] + rows[-1][-1]
            assert corners == quarters
    assert {unicodedata.name(one) for one in HALVES.characters} <= set(named)


@given(st.lists(st.text("#.", min_size=1, max_size=12), min_size=1, max_size=9))
def test_dots_come_back_out_of_cells_as_they_went_in(rows: list[str]) -> None:
    for mosaic in (HALVES, QUADRANTS, SEXTANTS):
        back = lit(from_dots(rows, mosaic, INK, GROUND), mosaic)
        for row, shown in zip(rows, back, strict=False):
            assert shown.startswith(row)
            assert "#" not in shown[len(row) :]


@given(st.lists(st.integers(0, 255), min_size=6, max_size=6))
def test_a_cells_two_tones_are_the_best_of_all_partings(shares: list[int]) -> None:
    def error(number: int, ink: float, ground: float) -> float:
        return sum(
            (share - (ink if number >> at & 1 else ground)) ** 2 for at, share in enumerate(shares)
        )

    def best(number: int) -> float:
        groups = (
            [s for at, s in enumerate(shares) if number >> at & 1],
            [s for at, s in enumerate(shares) if not number >> at & 1],
        )
        means = [sum(group) / len(group) if group else 0.0 for group in groups]
        return error(number, *means)

    character, ink, ground = two_tones(tuple(shares), SEXTANTS)
    number = SEXTANTS.characters.index(character)
    # Means are whole numbers: each dot may be off by one tone from the exact optimum.
    assert error(number, ink, ground) <= min(map(best, range(64))) + 6


# -- terminals that have ASCII only -------------------------------------------------


@given(st.text(max_size=30))
def test_whatever_is_written_takes_as_many_cells_in_ascii(text: str) -> None:
    shown = printable(text)
    drawn = line(shown, "#ffffff", "#000000")
    plain = in_ascii(drawn)
    assert plain_text(plain).isascii()
    assert width(plain) == width(drawn)


def test_signs_and_accents_have_a_likeness_in_ascii() -> None:
    drawn = line("▌ Špela • Zoë …", "#ffffff", "#000000")
    assert plain_text(in_ascii(drawn)) == "| Spela * Zoe ."


@given(st.text(alphabet="Ilse Łucja Ñ7+12", max_size=12), st.integers(1, 3))
def test_dot_letters_are_as_wide_as_was_said_before_they_were_drawn(text: str, scale: int) -> None:
    drawn = dot_letters.draw_text(text, INK, GROUND, scale)
    assert width(drawn) == dot_letters.text_width(text, scale)


# -- without shades, without sextants ------------------------------------------------


@pytest.mark.parametrize("dots", ["halves", "quadrants", "sextants"])
@pytest.mark.parametrize("colours", [16, 256, ALL])
@pytest.mark.parametrize("rows", range(3, 13))
def test_a_name_is_large_in_every_terminal(dots: CellDots, colours: Colours, rows: int) -> None:
    paint = Paint(INK, GROUND, Terminal(colours, dots))
    drawn = draw_lettering("Saoirse", 200, rows, paint)
    assert len(drawn) == (3 if rows == 4 else rows), "four rows have too few dots for a word"
    assert set("".join(plain_text(drawn))) <= {*MOSAICS[dots].characters, "\n"}


@pytest.mark.parametrize("dots", ["halves", "quadrants", "sextants"])
@pytest.mark.parametrize("text", ["Saoirse", "12:30", "7+12"])
def test_sixteen_colours_have_two_of_them_in_a_letter(dots: CellDots, text: str) -> None:
    drawn = draw_lettering(text, 200, 8, Paint("bright_white", "black", Terminal(16, dots)))
    colours = {
        colour.name
        for row in drawn
        for segment in row
        if segment.style
        for colour in (segment.style.color, segment.style.bgcolor)
        if colour
    }
    assert colours == {"bright_white", "black"}


@pytest.mark.parametrize("mosaic", [HALVES, QUADRANTS])
def test_no_two_low_letters_look_alike(mosaic: Mosaic) -> None:
    signs = string.ascii_uppercase + string.digits.replace("0", "") + "+-:.,/?!"
    for narrow in (False, True):
        assert len({low_letters.dots(one, mosaic, narrow=narrow) for one in signs}) == len(signs)


@pytest.mark.parametrize("character", list(string.ascii_uppercase + string.digits))
@pytest.mark.parametrize("mosaic", [HALVES, QUADRANTS])
def test_low_capitals_and_digits_have_the_standards_proportions(
    mosaic: Mosaic, character: str
) -> None:
    # Width to height 0.5 to 1 (ISO 9241-3); the I and the 1 are narrower in any letter. Five dots
    # are fewer than the standard's seven: so high are they that they reach 16 minutes of arc.
    wide, high = ink_size(list(low_letters.dots(character, mosaic)))
    assert high == low_letters.CAP
    if character not in "I1":
        assert 0.5 <= (wide / mosaic.across) / (high * 2 / mosaic.down) <= 1


@pytest.mark.parametrize("letter", list("éèêëñšžčřåäöüóíýúàâçşğőūėįąęţŠÉÅÑÖÜŽÇ"))
@pytest.mark.parametrize("mosaic", [HALVES, QUADRANTS])
def test_a_low_letter_with_its_accent_takes_three_rows(mosaic: Mosaic, letter: str) -> None:
    rows = low_letters.dots(letter, mosaic)
    assert len(rows) == low_letters.HEIGHT
    assert len({len(row) for row in rows}) == 1
    assert rows != low_letters.dots(unicodedata.normalize("NFD", letter)[0], mosaic)


@pytest.mark.parametrize("mosaic", [HALVES, QUADRANTS])
@given(st.text("Ilse ŁucjaÑ7+12ß", max_size=12), st.integers(1, 3), st.booleans())
def test_low_letters_are_as_wide_as_was_said_before_they_were_drawn(
    mosaic: Mosaic,
    text: str,
    scale: int,
    narrow: bool,  # noqa: FBT001  what hypothesis draws
) -> None:
    drawn = low_letters.draw_text(text, INK, GROUND, mosaic, scale, narrow=narrow)
    assert width(drawn) == low_letters.text_width(text, mosaic, scale, narrow=narrow)


def test_a_narrow_box_has_narrow_letters_rather_than_a_row_of_text() -> None:
    halves = Paint(INK, GROUND, Terminal(dots="halves"))
    wide = draw_lettering("Saoirse", 40, 3, halves)
    narrow = draw_lettering("Saoirse", width(wide) - 1, 3, halves)
    assert len(narrow) == len(wide) == 3
    assert width(narrow) < width(wide)


def test_a_letter_that_is_written_as_two_capitals_is_drawn_as_two() -> None:
    assert low_letters.dots("ß", HALVES) == low_letters.dots("SS", HALVES)
