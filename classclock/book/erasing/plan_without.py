"""A name taken out of lines of a plan's text, as far as that leaves it the same plan."""

import tomllib
from collections.abc import Collection, Iterator
from typing import Any

from classclock.book.erasing.name_finding import NOBODY, NameFinder

_ONLY_READ = ("title", "notes", "lines", "caution", "points", "standard")
"""Nothing is counted, compared or found again by what these keys say."""


def lines_naming(text: str, named: NameFinder) -> Iterator[str]:
    """The lines of a text in which a name stands, without the blanks around them."""
    if named.stands_in(text):
        yield from (line.strip() for line in text.splitlines() if named.stands_in(line))


def plan_without(text: str, named: NameFinder, goes: Collection[str]) -> str:
    """The plan without the name in these lines, wherever that leaves it the same plan.

    A piece keeps its name: a journal that keeps the plan so still replays to the results that were
    saved.
    """
    wanted = _what_counts(text)
    if wanted is None:
        return text
    left = text
    # From the end, so that the places before stay where they are.
    for first, last in reversed(list(named.spans(text))):
        begin, end = text.rfind("\n", 0, first) + 1, text.find("\n", last)
        line = text[begin : end if end >= 0 else len(text)]
        changed = left[:first] + NOBODY + left[last:]
        if line.strip() in goes and _what_counts(changed) == wanted:
            left = changed
    return left


def _what_counts(text: str) -> Any:
    """The plan's values without what is only read; None where it is no TOML."""
    try:
        return _kept(tomllib.loads(text))
    except (tomllib.TOMLDecodeError, RecursionError):
        return None


def _kept(value: Any) -> Any:
    match value:
        case dict():
            return {key: _kept(part) for key, part in value.items() if key not in _ONLY_READ}
        case list():
            return [_kept(part) for part in value]
    return value
