"""What somebody means by the letters typed so far, the likeliest first: one rule for every list."""

import re
import unicodedata
from collections.abc import Callable, Iterable
from typing import TypeVar

Thing = TypeVar("Thing")

BEGINS_A_WORD = 2
"""The largest distance at which a word begins with what is typed; beyond it, it is within one."""


WHOLE_LETTERS = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "t", "ß": "s", "æ": "a", "œ": "o", "\u0131": "i"}
)
"""Letters that Unicode does not take apart into a plain letter and an accent."""


def folded(text: str) -> str:
    """Small letters without accents, single spaces: names in a list stand in the order of these."""
    if text.isascii():
        return " ".join(text.casefold().split())
    plain = unicodedata.normalize("NFKD", text.casefold().translate(WHOLE_LETTERS))
    return " ".join("".join(c for c in plain if not unicodedata.combining(c)).split())


def distance(typed: str, name: str, *more: str) -> int | None:
    """How far a thing is from being what is meant; None where it has these letters nowhere.

    0 where its name begins so, 1 where a later word of the name does, 2 where a word of what else
    is said of it does; 3 where the name has it within a word, 4 where only the rest has. Whoever
    asks has folded all of it alike.
    """
    if name.startswith(typed):
        return 0
    begins = re.compile(rf"(?<![^\W_]){re.escape(typed)}")
    if begins.search(name):
        return 1
    if any(begins.search(one) for one in more):
        return 2
    if typed in name:
        return 3
    return 4 if any(typed in one for one in more) else None


def found(
    text: str, things: Iterable[Thing], said: Callable[[Thing], tuple[str, ...]]
) -> tuple[Thing, ...]:
    """Those that may be meant, the nearest first, in their own order where they are as near.

    `said` gives a thing's name, then what else is said of it. Nothing typed finds them all.
    """
    typed = folded(text)
    far = ((distance(typed, *map(folded, said(thing))), thing) for thing in things)
    near = [(at, thing) for at, thing in far if at is not None]
    return tuple(thing for _, thing in sorted(near, key=lambda one: one[0]))
