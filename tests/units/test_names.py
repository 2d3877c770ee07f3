"""Which names are one person's.

Composed and decomposed forms: Unicode Standard Annex #15, figures 3 and 5 (quoted from memory, and
checked here against Python's `unicodedata`, which is made from the Unicode Character Database).
Case: CaseFolding.txt of the same, as `str.casefold` has it.
"""

import re
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.units.names import (
    is_unnamed,
    name_key,
    names_pattern,
    tidy_name,
    typed_names,
    typed_twice,
)

COMPOSED, APART = "Zo\u00eb", "Zoe\u0308"
EQUIVALENT = [
    ("\u212b", "A\u030a", "\u00c5"),  # figure 3: angstrom sign
    ("\u2126", "\u03a9", "\u03a9"),  # figure 3: ohm sign
    ("\u00f4", "o\u0302", "\u00f4"),
    ("\u1e0b\u0323", "d\u0323\u0307", "\u1e0d\u0307"),  # figure 5: several marks, in one order
    ("q\u0307\u0323", "q\u0323\u0307", "q\u0323\u0307"),  # figure 5
]
NAMES = st.text(st.characters(exclude_categories=["Cs", "Cc", "Cn", "Co"]), min_size=1, max_size=12)


@pytest.mark.parametrize(("written", "apart", "composed"), EQUIVALENT)
def test_canonically_equivalent_names_are_one_and_are_kept_composed(
    written: str, apart: str, composed: str
) -> None:
    assert unicodedata.normalize("NFD", written) == apart
    assert unicodedata.normalize("NFC", written) == composed
    assert name_key(written) == name_key(apart) == name_key(composed)
    assert tidy_name(written) == tidy_name(apart) == composed


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (COMPOSED, APART),
        (COMPOSED, "ZOE\u0308"),
        ("Noor", "  noor "),
        ("Anna  B", "anna\u00a0b"),
        ("Wei\u00df", "WEISS"),  # CaseFolding.txt: full folding of sharp s
        ("\u039d\u03af\u03ba\u03bf\u03c2", "\u039d\u0399\u0301\u039a\u039f\u03a3"),  # final sigma
    ],
)
def test_composition_case_and_spaces_make_no_other_person(one: str, other: str) -> None:
    assert name_key(one) == name_key(other)


@pytest.mark.parametrize(
    ("one", "other"), [("Zoe", COMPOSED), ("Jo Ann", "Joann"), ("Noor", "Noor B")]
)
def test_an_accent_a_word_or_an_initial_does(one: str, other: str) -> None:
    assert name_key(one) != name_key(other)


@given(NAMES)
def test_every_form_of_a_name_has_one_key(name: str) -> None:
    key = name_key(name)
    for form in ("NFC", "NFD"):
        assert name_key(unicodedata.normalize(form, name)) == key
    assert name_key(tidy_name(name)) == key
    assert name_key(key) == key
    assert name_key(f" {name} ") == key


@given(NAMES)
def test_plain_letters_go_the_same_way_as_all_others(name: str) -> None:
    bare = "".join(sign for sign in name if sign.isascii())
    assert name_key(bare) == name_key(f"{bare}\u00e9").removesuffix("\u00e9").strip()


def test_several_names_stand_with_commas_between() -> None:
    assert typed_names("Bea, Pavel,Tom") == ("Bea", "Pavel", "Tom")
    assert typed_names(f" ,{APART}  van  B, ,") == (f"{COMPOSED} van B",)
    assert typed_names(" , ") == ()


def test_who_is_typed_twice_is_named_and_people_without_a_name_are_not() -> None:
    assert typed_twice([COMPOSED, "Bram", APART]) == APART
    assert typed_twice(["Zoe", COMPOSED]) is None
    assert typed_twice(["?", "Bram", "?"]) is None


@pytest.mark.parametrize("name", ["?", "??", " ? ", "visitor", "Visitor 2"])
def test_nobody_is_called_so(name: str) -> None:
    assert is_unnamed(name)


@pytest.mark.parametrize("name", ["", "Q?", "visitor b", "visitors", "Visser", "visitor 1 B"])
def test_somebody_may_be_called_so(name: str) -> None:
    assert not is_unnamed(name)


@pytest.mark.parametrize("name", [COMPOSED, APART])
@pytest.mark.parametrize("said", [COMPOSED, APART, "zOE\u0308", COMPOSED.upper()])
def test_a_name_is_found_in_whichever_form_a_text_has_it(name: str, said: str) -> None:
    pattern = names_pattern([name])
    assert pattern is not None
    assert (
        pattern.sub("X", f"{said}: left knee, with {said}'s band") == "X: left knee, with X's band"
    )


def test_within_another_name_it_is_not() -> None:
    pattern = names_pattern(["Zoe", "Noor", "Noor B", "*"])
    assert pattern is not None
    assert pattern.findall(f"{COMPOSED}, {APART}, Noor  B, Noora") == ["Noor  B"]
    assert pattern.search("a.b") is None
    assert names_pattern([" ", ""]) is None


@given(st.lists(NAMES, min_size=1, max_size=3))
def test_whatever_is_in_a_name_is_no_pattern(names: list[str]) -> None:
    pattern = names_pattern(names)
    assert pattern is None or isinstance(pattern, re.Pattern)
    for name in names:
        if pattern is not None and tidy_name(name):
            assert pattern.search(tidy_name(name)) is not None
