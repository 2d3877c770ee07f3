"""Which digits count: those of ASCII, and the decimal ones that Unicode has beside them."""

import sys
import unicodedata

import pytest

from classclock.units.digits import has_other_digits, is_whole

# All of general category Nd (Unicode Standard, 4.6).
DIGITS = [
    sign for sign in map(chr, range(sys.maxunicode + 1)) if unicodedata.category(sign) == "Nd"
]


def test_ten_of_all_digits_are_written_with() -> None:
    assert [sign for sign in DIGITS if is_whole(sign)] == list("0123456789")
    assert [sign for sign in DIGITS if not has_other_digits(sign)] == list("0123456789")


@pytest.mark.parametrize("text", ["", "a", "12b", "-3", "+3", "1.5", "1 2", "1\u0662", "\u00b2"])
def test_what_is_no_whole_number_in_them(text: str) -> None:
    assert not is_whole(text)


def test_a_number_may_have_many_digits_and_zeros_before_it() -> None:
    assert is_whole("0012")


def test_digits_of_another_script_are_seen_among_others() -> None:
    assert has_other_digits("12 \u0663")
    assert not has_other_digits("twelve, 12 \u00e9")
