"""Moments, as RFC 3339 writes them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.units.moments import moment_words, read_moment


@given(st.integers(min_value=-(2**40), max_value=2**42))
def test_a_moment_is_read_back_to_the_millisecond(moment: int) -> None:
    assert read_moment(moment_words(moment)) == moment


def test_it_is_written_in_universal_time() -> None:
    assert moment_words(0) == "1970-01-01T00:00:00.000Z"
    # RFC 3339, 5.8: one and the same moment under two offsets.
    assert read_moment("1985-04-12T23:20:50.520Z") == read_moment("1985-04-13T00:20:50.520+01:00")


@pytest.mark.parametrize("written", ["", "2026-11-24", "2026-11-24T18:30:00", "now"])
def test_what_has_no_offset_is_no_moment(written: str) -> None:
    with pytest.raises(ValueError, match=r"."):
        read_moment(written)
