"""What the keys do now, in as many rows as they take."""

from collections.abc import Iterable

_BETWEEN = "   "


def key_rows(keys: Iterable[str], columns: int) -> tuple[str, ...]:
    """The keys side by side, broken between two of them where a row is full."""
    rows = [""]
    for key in keys:
        longer = f"{rows[-1]}{_BETWEEN}{key}" if rows[-1] else key
        if len(longer) > columns and rows[-1]:
            rows.append(key)
        else:
            rows[-1] = longer
    return tuple(rows)
