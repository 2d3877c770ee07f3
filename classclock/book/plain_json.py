"""JSON as every reader and every database takes it."""

import json
import re
from typing import Any

_LARGEST = 2**53
"""What every reader of JSON takes as a whole number (RFC 8259, 6)."""
_MANY_DIGITS = re.compile(rb"\d{16}")
_HALF_A_SIGN = re.compile(rb"\\u[dD][89a-fA-F]")
"""Half of a UTF-16 pair: where the other is missing it is no text."""


def read_json(data: bytes) -> Any:
    """Read it, and refuse what couldn't be kept.

    Raises:
        ValueError: it is no JSON, nested too deep, or has a number or text that nothing can keep.
    """
    try:
        huge = _MANY_DIGITS.search(data) is not None
        read = json.loads(data, parse_int=_whole if huge else None)
    except RecursionError:
        raise ValueError("brackets within brackets, thousands of them") from None
    if _HALF_A_SIGN.search(data):
        json.dumps(read, ensure_ascii=False).encode()
    return read


def _whole(digits: str) -> int:
    """No count, load or time is so large."""
    if abs(number := int(digits)) > _LARGEST:
        raise ValueError(f"{digits[:20]} is far too large")
    return number
