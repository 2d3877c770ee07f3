"""What every reader of JSON takes (RFC 8259: 6 on numbers, 8.2 on halves of a sign)."""

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.units.plain_json import read_json

VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53), 2**53) | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
)


@given(VALUES, st.booleans())
def test_what_was_written_is_read(value: Any, ascii_only: bool) -> None:  # noqa: FBT001  drawn
    assert read_json(json.dumps(value, ensure_ascii=ascii_only).encode()) == value


@pytest.mark.parametrize("number", [2**53, -(2**53)])
def test_a_number_that_some_reader_would_change_is_refused(number: int) -> None:
    assert read_json(f'{{"n": {number}}}'.encode()) == {"n": number}
    further = number + (1 if number > 0 else -1)
    with pytest.raises(ValueError, match="far too large"):
        read_json(f'{{"n": {further}}}'.encode())


@pytest.mark.parametrize("half", [rb"\ud83d", rb"\uDE00", rb"\ud83dx"])
def test_half_of_a_sign_is_refused_and_both_halves_are_one(half: bytes) -> None:
    with pytest.raises(ValueError, match="surrogates"):
        read_json(b'"' + half + b'"')
    assert read_json(rb'"\ud83d\ude00"') == "\N{GRINNING FACE}"


def test_brackets_without_end_are_refused_in_words() -> None:
    with pytest.raises(ValueError, match="brackets within brackets"):
        read_json(b"[" * 100_000)
