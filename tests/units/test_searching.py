"""What is typed into any list: whatever has a word that begins so stands before all else."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.units.searching import BEGINS_A_WORD, distance, folded, found

words = st.text("abé r-", min_size=1, max_size=12)
things = st.lists(st.tuples(words, words), max_size=12, unique=True)
letters = st.text("abér", min_size=1, max_size=2)


def names(typed: str, *said: str) -> list[str]:
    """Which of them are found, each written as `name` or `name: what else is said of it`."""
    return list(found(typed, said, lambda one: tuple(one.split(": "))))


def begins(thing: tuple[str, str], typed: str, *, name_only: bool = False) -> bool:
    """Whether a word of it begins so, said another way: its words, one by one."""
    said = thing[:1] if name_only else thing
    words = [word for one in said for word in folded(one).replace("-", " ").split()]
    return any(word.startswith(folded(typed)) for word in words)


def test_a_name_that_begins_so_then_a_later_word_then_the_rest() -> None:
    assert names(
        "tur", "Last Saturday", "Gradient: Turns", "Low turns", "Night: Saturn", "Turns"
    ) == [
        "Turns",
        "Low turns",
        "Gradient: Turns",
        "Last Saturday",
        "Night: Saturn",
    ]


def test_accents_and_capitals_do_not_matter() -> None:
    assert folded("  Žélie   ŁA Søren") == "zelie la soren"
    assert names("SPE", "Hespe", "Špela") == ["Špela", "Hespe"]


def test_a_word_begins_after_any_sign_that_is_no_letter_of_it() -> None:
    assert [
        distance("tram", name) for name in ("last tram", "last-tram", "last_tram", "a+tram")
    ] == ([1] * 4)
    assert distance("(a", "b (a)") == 1, "signs that a pattern would take for its own"
    assert distance("tram", "strams") == 3
    assert distance("tram", "b", "strams") == 4


def test_nothing_typed_finds_all_and_what_nothing_has_finds_none() -> None:
    assert names(" ", "b", "a") == ["b", "a"]
    assert names("x", "b", "a: c") == []


@given(letters, things)
def test_whatever_has_the_letters_is_found_once_and_nothing_else(
    typed: str, listed: list[tuple[str, str]]
) -> None:
    having = [one for one in listed if any(folded(typed) in folded(said) for said in one)]
    assert sorted(found(typed, listed, lambda one: one)) == sorted(having)


@given(letters, things)
def test_words_that_begin_so_come_first_then_names_then_the_rest(
    typed: str, listed: list[tuple[str, str]]
) -> None:
    def place(one: tuple[str, str]) -> tuple[bool, bool, bool, int]:
        name, begun = folded(one[0]), begins(one, typed)
        by_name = begins(one, typed, name_only=True) if begun else folded(typed) in name
        return not begun, not by_name, not name.startswith(folded(typed)), listed.index(one)

    shown = [place(one) for one in found(typed, listed, lambda one: one)]
    assert shown == sorted(shown)


@given(letters, st.tuples(words, words))
def test_the_distance_says_whether_a_word_begins_so(typed: str, thing: tuple[str, str]) -> None:
    at = distance(folded(typed), *map(folded, thing))
    assert begins(thing, typed) == (at is not None and at <= BEGINS_A_WORD)
