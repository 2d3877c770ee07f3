"""Keyboards on which digits, `.`, `/` or `-` need shift."""

from classclock.tally.strokes import translate

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
