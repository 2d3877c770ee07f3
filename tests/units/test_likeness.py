"""What stands for a sign that letters lack, against what Unicode says it is made of."""

import sys
import unicodedata

import pytest

from classclock.units.likeness import LIKE, clusters, spelled


def in_ascii(sign: str) -> bool:
    return sign.isascii()


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("O\u2019Brien", "O'Brien"),
        ("\u201cslow\u201d", '"slow"'),
        ("1\N{VULGAR FRACTION ONE HALF} rounds", "1 1/2 rounds"),
        ("\N{VULGAR FRACTION THREE QUARTERS}", "3/4"),
        ("row 1\N{VULGAR FRACTION ONE HALF} km", "row 1 1/2 km"),
        ("2 x\N{VULGAR FRACTION ONE HALF}", "2 x1/2"),
        ("row\N{HORIZONTAL ELLIPSIS}", "row..."),
        ("10\N{SUPERSCRIPT FOUR}", "10 4"),
        ("\N{LATIN SMALL LIGATURE FI}t", "fit"),
        ("\N{LATIN SMALL LIGATURE IJ}s", "ijs"),
        ("5\N{NO-BREAK SPACE}kg", "5 kg"),
        ("\N{MINUS SIGN}3", "-3"),
    ],
)
def test_a_sign_is_spelled_with_what_it_is_made_of(text: str, shown: str) -> None:
    assert "".join(spelled(text, in_ascii)) == shown


def test_every_fraction_of_unicode_is_spelled_by_its_numerical_value() -> None:
    for code in range(sys.maxunicode + 1):
        sign = chr(code)
        if unicodedata.decomposition(sign).startswith("<fraction>"):
            over, _, under = "".join(spelled(sign, in_ascii)).partition("/")
            if under:  # U+215F, a numerator alone, has no value
                assert int(over) / int(under) == pytest.approx(unicodedata.numeric(sign))


def test_what_is_had_is_never_spelled_otherwise() -> None:
    text = "1\N{VULGAR FRACTION ONE HALF} O\u2019Brien"
    assert "".join(spelled(text, lambda _: True)) == text


def test_what_has_no_likeness_stays() -> None:
    assert spelled("\u674e", in_ascii) == ["\u674e"]


def test_a_letter_goes_with_its_marks() -> None:
    assert clusters("Rene\u0301") == ["R", "e", "n", "\N{LATIN SMALL LETTER E WITH ACUTE}"]
    assert clusters("g\u0303a") == ["g\u0303", "a"]


def test_whatever_stands_for_a_sign_is_of_the_same_kind() -> None:
    # Unicode's general categories: punctuation for punctuation, a letter for a letter, ...
    for sign, like in LIKE.items():
        kinds = {unicodedata.category(one)[0] for one in (sign, like)} if len(like) == 1 else set()
        # Letters that are used as an apostrophe (U+02BC and the like), and the minus sign.
        assert len(kinds) < 2 or like in "'-/"
