"""Keystrokes as the key language knows them: a sign as typed, or a name in angle brackets."""

from collections.abc import Mapping

from msgspec import Struct

NAMED_KEYS = (
    "<space>",
    "<enter>",
    "<backspace>",
    "<escape>",
    "<up>",
    "<down>",
    "<ctrl+e>",
    "<ctrl+n>",
    "<ctrl+p>",
    "<ctrl+r>",
    "<ctrl+w>",
    "<ctrl+q>",
    "<ctrl+c>",
    "<f2>",
)
LETTERS = frozenset("abcdefghijklmnopqrstuvwxyz")
DIGITS = frozenset("0123456789")
MARKS = frozenset("+:*/->.,")
"""The signs that numbers and prefixes are made of, besides digits and letters."""
LONE_SIGNS = frozenset("=!?")
"""The signs that mean something by themselves only."""
SIGNS = LETTERS | DIGITS | MARKS | LONE_SIGNS | frozenset(NAMED_KEYS)


class Stroke(Struct, frozen=True):
    """One keystroke, with the moment at which it arrived, not that at which it was handled."""

    sign: str
    """One printable character as typed, or one of `NAMED_KEYS`."""
    real: int
    """Milliseconds of real time, whatever the speed: a keyboard repeats itself in real time."""
    at: int
    """Milliseconds on the class's clock."""

    @property
    def key(self) -> str:
        """The key that was struck: shift and caps lock make no other letter of it."""
        return self.sign.lower() if self.sign.isascii() else self.sign


def key_name(key: str) -> str:
    """A key as it is said: `<space>` is space."""
    return key[1:-1] if key in NAMED_KEYS else key


def translate(sign: str, mapping: Mapping[str, str]) -> str:
    """The sign that the club's keyboard map gives for this one.

    For keyboards on which digits, `.`, `/` or `-` need shift. All at once, never one after the
    other, so that two signs may change places. Letters a to z stay what they are: a map must not
    take a lane's key away.
    """
    return sign if sign.isascii() and sign.isalpha() else mapping.get(sign, sign)
