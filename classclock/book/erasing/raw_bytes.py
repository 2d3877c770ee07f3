"""Which files may speak of somebody, told from their bytes: most don't, and aren't taken apart."""

import re
import unicodedata
from functools import lru_cache

_ESCAPED_ASCII = re.compile(rb"\\u00[2-7]", re.IGNORECASE)
"""A letter that needs no escape and has one: any name may be written so."""
_NOT_PLAIN = re.compile(rb"[\x80-\xff]|\\u", re.IGNORECASE)


def may_hold(raw: bytes, texts: frozenset[str]) -> bool:
    """Whether one of these may stand in a file of JSON or text, in whatever case and composition.

    Never wrong when it says no, but for letters of other scripts whose small form is a Latin one.
    """
    small = raw.lower()
    for parts, plain in _each(texts):
        if all(part in small for part in parts) and (plain or _NOT_PLAIN.search(raw)):
            return True
    return _ESCAPED_ASCII.search(raw) is not None


@lru_cache(maxsize=64)
def _each(texts: frozenset[str]) -> tuple[tuple[tuple[bytes, ...], bool], ...]:
    """Of each the parts that are there whatever else is escaped, and whether there are any."""
    found = []
    for text in texts:
        parts = re.findall(r"[0-9A-Za-z]+", unicodedata.normalize("NFC", text))
        plain = bool(parts) or text.casefold().upper().isascii()
        found.append((tuple(part.lower().encode() for part in parts), plain))
    return tuple(found)
