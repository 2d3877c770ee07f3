"""What the room sees of a number that says how hard it was: that there is one."""

import pytest

from classclock.tally.keys.unseen import unseen


@pytest.mark.parametrize(
    ("text", "typed", "seen"),
    [
        ("7", "7", "•"),
        ("10", "10", "••"),
        ("7 lapsed after 4 s: type it again", "7", "• lapsed after 4 s: type it again"),
        ("nobody has the key x; 7 still waits", "7", "nobody has the key x; • still waits"),
        ("7 waits, and 77 would", "77", "• waits, and •• would"),
        ("came again within 1.2 s", "1", "came again within 1.2 s"),
        ("-3 takes back one", "-3", "-3 takes back one"),
        ("the class is over", "", "the class is over"),
    ],
)
def test_its_digits_are_dots_and_nothing_else_is(text: str, typed: str, seen: str) -> None:
    assert unseen(text, typed) == seen
