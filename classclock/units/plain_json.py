"""JSON as every reader and every database takes it."""

import json
from typing import Any

_LARGEST = 2**53
"""What every reader of JSON takes as a whole number (RFC 8259, 6)."""
_DIGITS = bytes(ord("0") if chr(byte) in "0123456789" else 0 for byte in range(256))
_MANY_DIGITS = b"0" * len(str(_LARGEST))
_HALVES = (rb"\ud", rb"\uD")
"""How half of a UTF-16 pair may begin: where the other is missing it is no text."""


def read_json(data: bytes) -> Any:
    """Read it, and refuse what couldn't be kept.

    Raises:
        ValueError: it is no JSON, nested too deep, or has a number or text that nothing can keep.
    """
    try:
        # Looked for in one go: a pattern took longer than reading the whole.
        huge = _MANY_DIGITS in data.translate(_DIGITS)
        read = json.loads(data, parse_int=_whole if huge else None)
    except RecursionError:
        raise ValueError("brackets within brackets, thousands of them") from None
    if any(half in data for half in _HALVES):
        json.dumps(read, ensure_ascii=False).encode()
    return read


def _whole(digits: str) -> int:
    """No count, load or time is so large."""
    if abs(number := int(digits)) > _LARGEST:
        raise ValueError(f"{digits[:20]} is far too large")
    return number
