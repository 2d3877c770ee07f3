"""A plan's values as its file has them, before anything is checked."""

from typing import Any

Table = dict[str, Any]


def tables(value: object) -> list[tuple[int, Table]]:
    """List the tables of a list with their places in it, whatever else is there."""
    items = value if isinstance(value, list) else []
    return [(number, item) for number, item in enumerate(items) if isinstance(item, dict)]
