"""Text made safe for a terminal: Unicode's general categories, UAX #9 on what turns text round."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.units.printable import can_be_shown, escaped, escaped_json, joined, printable

JOINERS = ("\u200c", "\u200d", *map(chr, range(0xE0020, 0xE0080)))
TRAM_DRIVER = "👩\u200d🚒"


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ("\x1b[31mBram", r"\x1b[31mBram"),
        ("a\nb", r"a\nb"),
        ("\u202eleon", r"\u202eleon"),
        ("a\u2028b", r"a\u2028b"),
        ("a\u00a0b\u2003c", "a b c"),
        ("Žélie 🦊", "Žélie 🦊"),
        # Unicode Standard, 23.2: joined picture signs and some scripts need the joiners;
        # UTS #51, annex C: the flags of regions are tags.
        (TRAM_DRIVER, TRAM_DRIVER),
        ("\u0645\u06cc\u200c\u062e\u0648", "\u0645\u06cc\u200c\u062e\u0648"),
        ("🏴\U000e0067\U000e0062\U000e007f", "🏴\U000e0067\U000e0062\U000e007f"),
        ("a\u200bb\ufeff", r"a\u200bb\ufeff"),
    ],
)
def test_what_a_terminal_would_obey_is_shown_as_an_escape(text: str, seen: str) -> None:
    assert printable(text) == seen


def test_only_the_tags_among_the_joiners_are_left() -> None:
    # Unicode Standard, 23.9: U+E0020 to U+E007F; U+E0001 is deprecated, the others unassigned.
    assert escaped("\U000e0020\U000e007f") == "\U000e0020\U000e007f"
    assert escaped("\U000e0001\U000e001f\U000e0080") == r"\U000e0001\U000e001f\U000e0080"


def test_what_is_too_long_is_cut_and_says_so() -> None:
    assert printable("0123456789", 10) == "0123456789"
    assert printable("0123456789a", 10) == "012345678…"


@given(st.text(max_size=30))
def test_nothing_that_is_shown_moves_the_cursor(text: str) -> None:
    for shown in (printable(text), escaped(text)):
        assert can_be_shown(shown)
    assert "".join(sign for sign in printable(text) if sign not in JOINERS).isprintable()


@given(st.text(max_size=30))
def test_what_is_let_in_is_shown_sign_by_sign(text: str) -> None:
    shown = escaped(text)
    kept = [sign for sign in text if sign in shown]
    assert all(can_be_shown(sign) for sign in kept)
    assert escaped(shown) == shown


@given(st.text(max_size=30))
def test_a_document_says_the_same_with_escapes(text: str) -> None:
    # RFC 8259, 7: any character may be escaped, and means the same.
    document = escaped_json(json.dumps({text: [text]}, ensure_ascii=False))
    assert json.loads(document) == {text: [text]}
    assert can_be_shown(document)


@given(st.text(st.characters(exclude_characters="\\", exclude_categories=["Zs"]), max_size=30))
def test_an_escape_says_which_sign_it_was(text: str) -> None:
    # Python's own escapes (Language Reference, 2.5.1), read back by its own codec.
    shown = printable(text)
    assert shown.encode("ascii", "backslashreplace").decode("unicode_escape") == text


@pytest.mark.parametrize(
    "sign", "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
)
def test_a_name_must_not_turn_its_line_round(sign: str) -> None:
    # Unicode Standard Annex #9, section 2: all of the explicit directional formatting characters.
    assert not can_be_shown(f"Noor{sign}")


@pytest.mark.parametrize("sign", ["\n", "\x1b", "\x9b", "\u2028", "\u2029", "\ud83d"])
def test_a_name_must_not_move_the_cursor(sign: str) -> None:
    assert not can_be_shown(f"No{sign}or")


@pytest.mark.parametrize(
    "name", ["Noor", "طل", "👩\u200d🚒", "\u0645\u06cc\u200c\u062e\u0648", "a\u00a0b"]
)
def test_joiners_and_all_scripts_are_let_through(name: str) -> None:
    assert can_be_shown(name)


def test_joiners_that_were_escaped_in_a_quotation_are_joined_again() -> None:
    assert joined(repr(TRAM_DRIVER)) == f"'{TRAM_DRIVER}'"
    assert joined(repr("a\x1bb\\n")) == repr("a\x1bb\\n")
