"""Moments in whole milliseconds since 1970, as RFC 3339 writes them in universal time."""

from datetime import UTC, datetime, timedelta

_ZERO = datetime(1970, 1, 1, tzinfo=UTC)


def moment_words(moment: int) -> str:
    """`2026-11-24T17:30:00.001Z`."""
    at = _ZERO + timedelta(milliseconds=moment)
    return at.replace(tzinfo=None).isoformat(timespec="milliseconds") + "Z"


def read_moment(written: str) -> int:
    """Read it back; any offset is taken.

    Raises:
        ValueError: it is no moment, or has no offset.
    """
    at = datetime.fromisoformat(written)
    if at.tzinfo is None:
        raise ValueError(f'"{written}" is no moment: write 2026-11-24T17:30:00.000Z')
    return (at - _ZERO) // timedelta(milliseconds=1)
