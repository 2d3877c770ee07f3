"""Other people's names are left out of a text, the person's own stay, all else stays as it is."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.handing_over.left_out import LEFT_OUT, OnlyTheirNames

NAMES = OnlyTheirNames(
    ["Noor B", "Zoë"], ["Noor", "Bram de Wit", "Ann", "★", "Joris", "visitor 2", "Ilse-Marie"]
)


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("Noor B beat Noor and Bram de  Wit", f"Noor B beat {LEFT_OUT} and {LEFT_OUT}"),
        ("bram's bar, WIT's plates, de la", f"{LEFT_OUT}'s bar, {LEFT_OUT}'s plates, de la"),
        ("Hannah, Annex, ann", f"Hannah, Annex, {LEFT_OUT}"),
        ("joris_old-zoe.csv", f"{LEFT_OUT}_old-zoe.csv"),
        ("Zoe\u0308 and Ilse Marie", f"Zoe\u0308 and {LEFT_OUT}"),
        ("a ★ for visitor 2", f"a {LEFT_OUT} for visitor 2"),
        ("", ""),
    ],
)
def test_names_are_found_as_whole_words_however_they_are_written(text: str, left: str) -> None:
    assert NAMES.left_in(text) == left


def test_who_bears_a_name_too_keeps_it() -> None:
    names = OnlyTheirNames(["Ilse Kuyper"], ["Ilse Vos", "ilse kuyper"])
    assert names.left_in("Ilse Kuyper, Ilse, Ilse Vos, Vos") == (
        f"Ilse Kuyper, Ilse, {LEFT_OUT}, {LEFT_OUT}"
    )
    assert names.stand_in("kuyper was late")
    assert not names.stand_in("Vos was late")


def test_values_keep_their_shape_and_words_of_the_program() -> None:
    names = OnlyTheirNames(["Ilse"], ["Status", "Bram", "time"])
    told = {"kind": "time", "note": ["Bram, Ilse", 3, None], "piece": {"name": "Status quo"}}
    assert names.values(told) == {
        "kind": "time",
        "note": [f"{LEFT_OUT}, Ilse", 3, None],
        "piece": {"name": f"{LEFT_OUT} quo"},
    }


WORDS = st.sampled_from(["Ilse", "Bram", "Noor", "and", "de", "Wit", "12", "Łucja", "zoë"])


@given(
    st.lists(WORDS, min_size=1, max_size=3),
    st.lists(WORDS, max_size=6),
    st.lists(WORDS, max_size=9),
)
def test_no_name_of_others_stays_and_nothing_goes_that_is_none(
    own: list[str], others: list[str], text: list[str]
) -> None:
    names = OnlyTheirNames([" ".join(own)], others)
    left = names.left_in(", ".join(text))
    stays = set(own)
    for name in set(others) - stays:
        assert not re.search(rf"\b{name}\b", left)
    assert all(word in left for word in text if word not in others)
    assert names.left_in(left) == left


@given(st.text(max_size=8), st.text(max_size=30))
def test_a_name_is_found_in_any_text_that_holds_it(name: str, text: str) -> None:
    names = OnlyTheirNames([name], [])
    words = bool(re.search(r"[^\W_]", name))
    assert names.stand_in(f"{text} {name} {text}") is words
