"""Keyboards on which digits, `.`, `/` or `-` need shift."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.tally.keys.keyboard_row import can_be_mapped, keyboard_map
from classclock.tally.keys.strokes import translate

# The unshifted digit row of the French layout, from memory.
ROW = dict(zip("&é\"'(-è_çà", "1234567890", strict=True)) | {";": ".", ":": "/", ")": "-"}


def test_a_mapped_row_types_digits_without_shift() -> None:
    assert "".join(translate(sign, ROW) for sign in "&éà") == "120"
    assert translate(";", ROW) == "."


def test_signs_may_change_places() -> None:
    assert translate("-", ROW) == "6"
    assert translate(")", ROW) == "-"


def test_what_the_map_leaves_out_stays_as_it_is() -> None:
    assert translate("n", ROW) == "n"
    assert translate("<space>", ROW) == "<space>"
    assert translate("n", {}) == "n"


def test_no_map_takes_a_lanes_letter_away() -> None:
    assert translate("n", {"n": "1"}) == "n"
    assert translate("N", {"N": "1"}) == "N"


def test_a_row_that_needs_no_shift_gives_no_map() -> None:
    assert keyboard_map("", ".", "-") == {}
    assert keyboard_map("1234567890", ".", "-") == {}


def test_the_row_and_the_keys_chosen_for_point_and_minus_are_the_map() -> None:
    # The unshifted digit row of the French layout, from memory.
    mapped = keyboard_map("&é\"'(-è_çà", ";", ")")
    assert "".join(translate(sign, mapped) for sign in "&é\"'(-è_çà;)") == "1234567890.-"


def test_a_sign_of_the_key_language_changes_places_with_its_digit() -> None:
    # On the Czech layout, from memory, the key of 1 types a plus.
    mapped = keyboard_map("+ěščřžýáíé", ".", "-")
    assert translate("+", mapped) == "1"
    assert translate("1", mapped) == "+"


@given(st.permutations("&é\"'(-è_çà+ěščřžý!?/*"))
def test_every_digit_and_every_sign_can_be_typed_whatever_the_row(signs: list[str]) -> None:
    mapped = keyboard_map("".join(signs[:10]), signs[10], signs[11])
    typed = {translate(sign, mapped) for sign in {*signs, *"1234567890.-+:*/>,=!?"}}
    assert {*"1234567890.-"} <= typed


def test_letters_are_peoples_keys_and_never_mapped() -> None:
    assert not can_be_mapped("n")
    assert not can_be_mapped("<enter>")
    assert can_be_mapped("é")
    assert can_be_mapped("&")
