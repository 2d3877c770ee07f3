"""Text that somebody is handed: their own names stay in it, all other people's are left out."""

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from classclock.units.names import is_unnamed, name_key
from classclock.units.spelling import plain_words

LEFT_OUT = "[another name]"
"""What stands where the name of somebody else stood."""
_WORD = re.compile("[^\\W_][^\\W_\u0300-\u036f]*(?:[\u0300-\u036f]+[^\\W_]*)*")
_OUR_WORDS = frozenset(
    {"change", "event", "format", "id", "ids", "kind", "mark", "marks", "status", "why_not"}
)
"""Keys whose values are words of the program's own, or the person's id: nobody's name."""
_LEAST = 2
"""Letters of a part of a name that is looked for by itself."""

_Words = tuple[str, ...]


class OnlyTheirNames:
    """Finds names as whole words, however they are composed and in whatever case.

    Of a name in several words the first and the last are names too: a note says `Bram`, or `Wit`,
    where the book has `Bram de Wit`.
    """

    def __init__(self, own: Iterable[str], others: Iterable[str]) -> None:
        own, others = list(own), [name for name in others if not is_unnamed(name)]
        whole, other = _whole(own), _whole(others)
        # Somebody who is called `Noor` comes before the first name of `Noor B`.
        self._own = whole | (_parts(own) - other)
        self._others = (other | _parts(others)) - self._own
        every = self._own | self._others
        self._longest = max(map(len, every), default=0)
        self._signs = sorted({one for one in others if one.strip() and not _split(one)}, key=len)
        """Names without a letter or a digit."""

    def stand_in(self, text: str) -> bool:
        """Whether the person's own name does."""
        folded = _folded(text)
        # Most files tell of other people: those needn't be taken apart into words.
        if not any(words[0] in folded for words in self._own):
            return False
        return any(own for _, _, own in self._found(text))

    def left_in(self, text: str) -> str:
        """The text without other people's names."""
        for sign in reversed(self._signs):
            text = text.replace(sign, LEFT_OUT)
        kept, end = [], 0
        for first, last, own in self._found(text):
            kept += [text[end:last]] if own else [text[end:first], LEFT_OUT]
            end = last
        return "".join((*kept, text[end:]))

    def values(self, value: Any, key: str = "") -> Any:
        """The same for all text in plain values."""
        match value:
            case str() if key not in _OUR_WORDS:
                return self.left_in(value)
            case dict():
                return {name: self.values(part, name) for name, part in value.items()}
            case list() | tuple():
                return [self.values(part, key) for part in value]
        return value

    def _found(self, text: str) -> list[tuple[int, int, bool]]:
        """Where names stand, from the first to the last, and whether they are the person's."""
        words = [(found.start(), found.end(), _key(found[0])) for found in _WORD.finditer(text)]
        found, at = [], 0
        while at < len(words):
            for length in range(min(self._longest, len(words) - at), 0, -1):
                name = tuple(key for _, _, key in words[at : at + length])
                if name in self._own or name in self._others:
                    last = words[at + length - 1][1]
                    found.append((words[at][0], last, name in self._own))
                    at += length
                    break
            else:
                at += 1
        return found


def _whole(names: Iterable[str]) -> frozenset[_Words]:
    """The names by their words, with what stands for them in the name of a file."""
    both = ((_split(name), tuple(plain_words(name).split())) for name in names)
    return frozenset(words for pair in both for words in pair if words)


def _parts(names: Iterable[str]) -> frozenset[_Words]:
    """First and last names."""
    split = [_WORD.findall(name) for name in names]
    parts = (part for words in split for part in (*words[:1], *words[-1:]))
    return frozenset(_split(part) for part in parts if _is_name(part))


def _is_name(part: str) -> bool:
    """Whether a part of a name may be one by itself: not the `de` of `Bram de Wit`."""
    return len(part) >= _LEAST and part[0].isalpha() and not part.islower()


def _split(text: str) -> _Words:
    return tuple(_key(word) for word in _WORD.findall(text))


_key = lru_cache(maxsize=4096)(name_key)


def _folded(text: str) -> str:
    """A whole text as `name_key` has each of its words."""
    if text.isascii():
        return text.casefold()
    apart = unicodedata.normalize("NFD", text).casefold()
    return unicodedata.normalize("NFC", unicodedata.normalize("NFD", apart))
