"""Names that may be meant by one that nobody has."""

import difflib
from collections.abc import Iterable

from classclock.units.searching import folded

_ALIKE = 0.8
"""How alike two names are at least, from 0 to 1, as difflib reckons it: Agdaa and Agda are."""


def near_names(written: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """The nearest of the known names, nearest first, without accents and case."""
    typed = folded(written)
    by_folded: dict[str, str] = {}
    for name in known:
        # A slip is seldom at both ends: that leaves few to be compared.
        plain = folded(name)
        if plain[:1] == typed[:1] or plain[-2:] == typed[-2:]:
            by_folded.setdefault(plain, name)
    found = difflib.get_close_matches(typed, by_folded, n=most, cutoff=_ALIKE)
    return tuple(by_folded[name] for name in found)
