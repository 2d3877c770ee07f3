"""Short parts, such as keys and what they do, in as many lines as they take."""

from collections.abc import Iterable


def wrapped(parts: Iterable[str], columns: int) -> list[str]:
    """The parts in lines, none torn apart."""
    lines: list[str] = []
    for part in parts:
        if lines and len(lines[-1]) + 3 + len(part) <= columns:
            lines[-1] += f"   {part}"
        else:
            lines.append(part)
    return lines
