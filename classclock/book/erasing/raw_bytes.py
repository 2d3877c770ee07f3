"""Which files may speak of somebody, told from their bytes: most don't, and aren't taken apart."""

import re
import unicodedata
from functools import lru_cache

_ESCAPED_ASCII = rb"\\u00[2-7]"
"""A letter that needs no escape and has one: any name may be written so."""
_NOT_PLAIN = rb"[\x80-\xff]|\\u"


def may_hold(raw: bytes, texts: frozenset[str]) -> bool:
    """Whether one of these may stand in a file of JSON or text, in whatever case and composition.

    Never wrong when it says no, but for letters of other scripts whose small form is a Latin one.
    """
    return _pattern(texts).search(raw) is not None


@lru_cache(maxsize=64)
def _pattern(texts: frozenset[str]) -> re.Pattern[bytes]:
    return re.compile(b"|".join((_ESCAPED_ASCII, *map(_part, sorted(texts)))), re.IGNORECASE)


def _part(text: str) -> bytes:
    """The longest part that is there however the text is composed and whatever is escaped."""
    found: list[str] = re.findall(r"[0-9A-Za-z]+", unicodedata.normalize("NFC", text))
    if found:
        return max(found, key=len).encode()
    return b"" if text.casefold().upper().isascii() else _NOT_PLAIN
