"""Names that may be meant by one that nobody has."""

import difflib
from collections import defaultdict
from collections.abc import Iterable

from classclock.units.searching import folded

_ALIKE = 0.8
"""How alike two names are at least, from 0 to 1, as difflib reckons it: Agdaa and Agda are."""


class NearNames:
    """Names, to be asked which of them are near to one: without accents and case."""

    def __init__(self, known: Iterable[str]) -> None:
        self._by_folded: dict[str, str] = {}
        for name in known:
            self._by_folded.setdefault(folded(name), name)
        # A slip is seldom at both ends: that leaves few to be compared.
        self._beside: defaultdict[tuple[str, str], list[str]] = defaultdict(list)
        for name in self._by_folded:
            for end in _ends(name):
                self._beside[end].append(name)

    def of(self, written: str, most: int = 3) -> tuple[str, ...]:
        """The nearest, nearest first."""
        typed = folded(written)
        some = dict.fromkeys(name for end in _ends(typed) for name in self._beside.get(end, ()))
        found = difflib.get_close_matches(typed, some, n=most, cutoff=_ALIKE)
        return tuple(self._by_folded[name] for name in found)


def _ends(name: str) -> tuple[tuple[str, str], ...]:
    return ("begins", name[:1]), ("ends", name[-2:])
