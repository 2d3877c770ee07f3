"""Shapes of letters as rows of dots, as they are kept in a text file."""

from pathlib import Path

Shape = tuple[str, ...]
"""Rows from the top down, all equally long; `#` is a lit dot."""


def read_shapes(path: Path, height: int) -> dict[str, Shape]:
    """Each character's shape from a file of ours, filled up to so many rows.

    A shape stands under a line `= x` that names its character. There is none for the space.
    """
    entries = (entry.splitlines() for entry in path.read_text("utf-8").split("\n= ")[1:])
    return {name: _filled(rows, height) for name, *rows in entries}


def _filled(rows: list[str], height: int) -> Shape:
    rows = [row for row in rows if row]
    return (*rows, *["." * len(rows[0])] * (height - len(rows)))


def centred(mark: Shape, width: int) -> Shape:
    """An accent of an even width over a letter of another; what is too wide is cut."""
    wide = len(mark[0])
    if width < wide:
        cut = (wide - width) // 2
        return tuple(row[cut : cut + width] for row in mark)
    return tuple(row.center(width, ".") for row in mark)
