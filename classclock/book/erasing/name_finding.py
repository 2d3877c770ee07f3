"""Finding somebody's names in text, and telling them from text that happens to be the same."""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

from msgspec import Struct

from classclock.units.names import name_key, names_pattern
from classclock.units.spelling import plain_words

NOBODY = "erased"
"""What stands where a name stood."""


class NameFinder(Struct, frozen=True):
    """Finds names as whole words, in whatever case and composition."""

    names: frozenset[str]
    apart: frozenset[str] = frozenset()
    """Texts that hold a name and mean something else: the piece `Max effort`, another's `Max B`."""

    def stands_in(self, text: str) -> bool:
        return next(self.spans(text), None) is not None

    def spans(self, text: str) -> Iterator[tuple[int, int]]:
        """Where names stand, from the first to the last."""
        pattern = _pattern(self.names | self.apart)
        if pattern is None:
            return
        keys = _keys(self.names)
        for found in pattern.finditer(text):
            if name_key(found[0]) in keys:
                yield found.span()

    def without(self, text: str, instead: str = NOBODY) -> str:
        kept, end = [], 0
        for first, last in self.spans(text):
            kept += [text[end:first], instead]
            end = last
        return "".join((*kept, text[end:]))

    def is_one(self, name: str) -> bool:
        """Whether it is one of the names, and nothing more."""
        return name_key(name) in _keys(self.names)

    def called_so(self, file_name: str) -> bool:
        """Whether a name is a part of a file's: `tally-cato_lind.csv`."""
        words = f" {plain_words(file_name)} "
        for other in sorted(map(plain_words, self.apart), key=len, reverse=True):
            words = words.replace(f" {other} ", "  ")
        return any(f" {plain} " in words for name in self.names if (plain := plain_words(name)))


def name_finder(names: Iterable[str], others: Iterable[str] = ()) -> NameFinder:
    """What finds these names, but not within `others`: names of other people, pieces, options."""
    alone = NameFinder(frozenset(filter(None, names)))
    return NameFinder(
        alone.names,
        frozenset(one for one in others if not alone.is_one(one) and alone.stands_in(one)),
    )


@lru_cache(maxsize=64)
def _pattern(texts: frozenset[str]) -> re.Pattern[str] | None:
    return names_pattern(texts)


@lru_cache(maxsize=64)
def _keys(names: frozenset[str]) -> frozenset[str]:
    return frozenset(map(name_key, names))
