"""From a terminal's key event to the signs of the key language."""

import pytest

from classclock.screens.controls.key_sign import signs_of


@pytest.mark.parametrize(
    ("key", "character", "signs"),
    [
        ("n", "n", ("n",)),
        ("N", "N", ("N",)),
        ("1", "1", ("1",)),
        ("space", " ", ("<space>",)),
        ("enter", "\r", ("<enter>",)),
        ("ctrl+j", "\n", ("<enter>",)),
        ("backspace", "\x7f", ("<backspace>",)),
        ("ctrl+h", "\x08", ("<backspace>",)),
        ("escape", "\x1b", ("<escape>",)),
        ("up", None, ("<up>",)),
        ("f2", None, ("<f2>",)),
        ("ctrl+q", "\x11", ("<ctrl+q>",)),
        ("exclamation_mark", "!", ("!",)),
    ],
)
def test_a_key_is_what_it_types(key: str, character: str | None, signs: tuple[str, ...]) -> None:
    assert signs_of(key, character) == signs


def test_a_keypad_types_digits_whatever_its_keys_are_called() -> None:
    assert signs_of("kp_1", "1") == ("1",)


def test_escape_and_a_letter_in_one_read_are_escape_and_then_the_letter() -> None:
    assert signs_of("alt+n", "n") == ("<escape>", "n")
    assert signs_of("alt+shift+n", "N") == ("<escape>", "N")
