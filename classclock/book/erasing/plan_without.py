"""A name taken out of a plan's text, where it stands in words that are only read."""

import re
import tomllib
from typing import Any

_ONLY_READ = ("title", "notes", "lines", "caution", "points", "standard")
"""Nothing is counted, compared or found again by what these keys say."""


def plan_without(text: str, named: re.Pattern[str], instead: str) -> str:
    """The plan with `instead` wherever that leaves it the same plan: a piece keeps its name.

    A journal that keeps the plan so still replays to the results that were saved.
    """
    wanted = _what_counts(text)
    if wanted is None:
        return text
    # From the end, so that the places before stay where they are.
    for found in reversed(list(named.finditer(text))):
        changed = text[: found.start()] + instead + text[found.end() :]
        if _what_counts(changed) == wanted:
            text = changed
    return text


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
