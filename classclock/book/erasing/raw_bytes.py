"""Which files may speak of somebody, told from their bytes: most don't, and aren't taken apart."""

import re
import unicodedata
from functools import lru_cache
from typing import NamedTuple

_ESCAPED_ASCII = re.compile(rb"\\u00[2-7]", re.IGNORECASE)
"""A letter that needs no escape and has one: any name may be written so."""


_BETWEEN = rb"(?:[^0-9a-z]|\\[nrtbf])+"
"""What may stand between two words of a name: spaces, also those that JSON escapes."""


class _Text(NamedTuple):
    """An id or a name, as far as bytes tell it."""

    parts: tuple[bytes, ...]
    """The words in it that are there whatever else is escaped."""
    plain: bool
    """Whether it may stand in a file of plain ASCII without escapes."""
    pattern: re.Pattern[bytes] | None
    """How it stands in such a file, where that is known."""


def may_hold(raw: bytes, texts: frozenset[str]) -> bool:
    """Whether one of these may stand in a file of JSON or text, in whatever case and composition.

    Never wrong when it says no, but for letters of other scripts whose small form is a Latin one.
    """
    small = raw.lower()
    there = [text for text in _each(texts) if all(part in small for part in text.parts)]
    escapes = b"\\u" in small
    if there and (escapes or not raw.isascii()):
        return True
    if any(text.plain and (not text.pattern or text.pattern.search(small)) for text in there):
        return True
    return escapes and _ESCAPED_ASCII.search(raw) is not None


@lru_cache(maxsize=64)
def _each(texts: frozenset[str]) -> tuple[_Text, ...]:
    found = []
    for text in texts:
        words = re.findall(r"[0-9A-Za-z]+", unicodedata.normalize("NFC", text))
        parts = tuple(word.lower().encode() for word in words)
        plain = bool(parts) or text.casefold().upper().isascii()
        whole = _BETWEEN.join(parts) + rb"(?![0-9a-z])"
        pattern = re.compile(whole) if parts and text.isascii() else None
        found.append(_Text(parts, plain, pattern))
    return tuple(found)
