"""Whom a typed note is about."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.tally.lanes import Person
from classclock.tally.notes import TypedNote, typed_note

NOOR, ZOE, A = Person("1", "Noor", "n"), Person("2", "Zo\u00eb B", "z"), Person("3", "A", "x")
AXEL = Person("4", "Axel", "a")
HERE = (AXEL, NOOR, ZOE, A)


@pytest.mark.parametrize(
    ("line", "note"),
    [
        ("Noor: left knee,  stopped", TypedNote(NOOR, "left knee, stopped")),
        ("n:left knee", TypedNote(NOOR, "left knee")),
        ("N : at 3:40", TypedNote(NOOR, "at 3:40")),
        ("zoe\u0308 b: cold", TypedNote(ZOE, "cold")),
        ("a: late", TypedNote(A, "late")),
        ("x: late", TypedNote(A, "late")),
        ("Noor", TypedNote(None, "Noor")),
        ("18:40: the lights went out", TypedNote(None, "18:40: the lights went out")),
        (": nothing", TypedNote(None, ": nothing")),
        ("Noor:  ", TypedNote(NOOR, "")),
        ("", TypedNote(None, "")),
    ],
)
def test_a_name_or_a_key_before_a_colon_is_whom_it_is_about(line: str, note: TypedNote) -> None:
    assert typed_note(line, HERE) == note


@given(st.text(st.characters(exclude_characters=":")))
def test_without_a_colon_it_is_about_the_class(line: str) -> None:
    assert typed_note(line, HERE) == TypedNote(None, " ".join(line.split()))
