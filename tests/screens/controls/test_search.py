"""A list in which a thing is found by typing."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.screens.controls.search import Search

keys = st.sampled_from(["<up>", "<down>", "<end>", "<backspace>", "<escape>", "<f7>", "a", "é"])


@given(st.lists(st.tuples(keys, st.integers(0, 9))))
def test_whatever_changes_what_is_typed_lights_the_first(struck: list[tuple[str, int]]) -> None:
    finding = Search()
    for sign, count in struck:
        before = finding.text
        finding.sign(sign, count)
        if finding.text != before:
            assert finding.cursor.at == 0


def test_escape_drops_what_is_typed_and_means_nothing_where_nothing_is() -> None:
    finding = Search()
    assert finding.sign("a", 3)
    assert finding.sign("<down>", 3)
    assert finding.sign("<escape>", 3)
    assert (finding.text, finding.cursor.at) == ("", 0)
    assert not finding.sign("<escape>", 3)


def test_no_more_is_typed_than_anybody_is_called_and_the_place_stays() -> None:
    finding = Search()
    finding.paste("x" * 80)
    finding.sign("<down>", 3)
    assert not finding.sign("y", 3)
    assert (len(finding.text), finding.cursor.at) == (60, 1)
