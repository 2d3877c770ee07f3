"""One name however it is spelled. English plurals: common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.units.spelling import fold, plain_words, plural


@pytest.mark.parametrize(
    ("one", "several"),
    [
        ("box", "boxes"),
        ("bar", "bars"),
        ("bench", "benches"),
        ("push", "pushes"),
        ("press", "presses"),
        ("waltz", "waltzes"),
        ("band", "bands"),
    ],
)
def test_a_thing_and_several_of_it_are_one_name(one: str, several: str) -> None:
    assert plural(one) == several
    assert fold(several) == fold(one) == one


@pytest.mark.parametrize(("several", "one"), [("carries", "carry"), ("flies", "fly")])
def test_a_y_comes_back(several: str, one: str) -> None:
    assert fold(several) == one


@pytest.mark.parametrize("word", ["press", "calculus", "pelvis", "is", "us", "s"])
def test_what_only_looks_like_several_stays(word: str) -> None:
    assert fold(word) == word


def test_short_words_are_left_alone_and_those_of_three_letters_are_not() -> None:
    assert fold("as") == "as"
    assert fold("ups") == "up"


def test_case_hyphens_accents_and_apostrophes_make_no_difference() -> None:
    assert fold("Box Step-overs") == fold("box step_over") == "box step over"
    assert plain_words("Farmer's  Walk") == plain_words("farmer\u2019s walk") == "farmers walk"
    assert plain_words("Élan İnci \u0131lk") == "elan inci ilk"


@given(st.text("aÉz'\u2019\u0130\u0131-_: 0", max_size=20))
def test_plain_words_stay_as_they_are(written: str) -> None:
    assert plain_words(plain_words(written)) == plain_words(written)
