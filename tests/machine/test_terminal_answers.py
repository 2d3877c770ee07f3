"""A terminal's answers among the keys, however they are cut."""

from collections.abc import Iterator
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.machine.terminal_answers import (
    KEY_SECONDS,
    LOST_SECONDS,
    QUERY,
    TerminalAnswers,
)

# xterm's "Control Sequences" (ctlseqs): XTVERSION is answered DCS > | text ST, DA1 CSI ? ... c.
VERSION, ATTRIBUTES = b"\x1bP>|VTE(7006)\x1b\\", b"\x1b[?65;1;9c"
ANSWERS = VERSION + ATTRIBUTES
KEYS = b"12n\x1b[A\r\x7f\x1bOP\x1b[200~pasted\x1b[201~\x1b[?2026;2$y\x1b[<0;3;4M\xc3\xa9-i"
"""Among them what Textual itself asks for: its mode report isn't ours."""


def pieces(data: bytes, cuts: list[int]) -> Iterator[bytes]:
    ends = sorted({0, len(data), *(cut % (len(data) + 1) for cut in cuts)})
    return (data[one:other] for one, other in pairwise(ends))


@given(st.integers(0, len(KEYS)), st.lists(st.integers(0, 200), max_size=12))
def test_keys_stay_as_they_are_and_answers_are_taken_out(at: int, cuts: list[int]) -> None:
    if b"\x1b" in (KEYS[max(0, at - 6) : at], KEYS[at - 1 : at]):
        at = 0  # a terminal puts its answer between keys, not into one
    answers = TerminalAnswers()
    sent = KEYS[:at] + ANSWERS + KEYS[at:]
    typed = b"".join(answers.typed(piece) for piece in pieces(sent, cuts))
    assert answers.complete
    assert answers.version == "VTE(7006)"
    assert b"VTE" not in typed
    assert typed + answers.typed_after(KEY_SECONDS) == KEYS


@given(st.binary(max_size=60), st.lists(st.integers(0, 60), max_size=8))
def test_whatever_is_no_answer_is_typed(data: bytes, cuts: list[int]) -> None:
    if b"\x1bP>" in data or b"\x1b[?" in data:
        return
    answers = TerminalAnswers()
    typed = b"".join(answers.typed(piece) for piece in pieces(data, cuts))
    assert typed + answers.typed_after(KEY_SECONDS) == data


def test_after_the_last_answer_nothing_is_held_back() -> None:
    answers = TerminalAnswers()
    assert answers.typed(ATTRIBUTES) == b""
    assert answers.typed(b"\x1b") == b"\x1b"


def test_an_escape_key_is_one_after_a_moment() -> None:
    answers = TerminalAnswers()
    assert answers.typed(b"\x1b") == b""
    assert answers.typed_after(KEY_SECONDS / 2) == b""
    assert answers.typed_after(KEY_SECONDS) == b"\x1b"


@pytest.mark.parametrize("begun", [VERSION[:4], VERSION[:-1], ATTRIBUTES[:-1]])
def test_a_begun_answer_is_never_typed_and_given_up_at_last(begun: bytes) -> None:
    answers = TerminalAnswers()
    assert answers.typed(begun) == b""
    assert answers.typed_after(LOST_SECONDS / 2) == b""
    assert answers.typed_after(LOST_SECONDS) == b""
    assert answers.typed(b"n") == b"n"


def test_asked_is_the_version_and_then_what_every_terminal_answers() -> None:
    assert QUERY == b"\x1b[>q\x1b[c"
