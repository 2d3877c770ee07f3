"""The upper part of a screen: a title as large as there is room for, quiet lines at its right."""

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look, cut


def heading_rows(rows: int) -> int:
    """How high a heading stands on a screen of so many rows."""
    if rows < 24:
        return 1
    return 3 if rows < 45 else 5


def draw_heading(
    title: str, beside_it: tuple[str, ...], columns: int, rows: int, look: Look
) -> Drawing:
    """A title as large as its rows, and quiet lines at the right."""
    longest = max((len(text) for text in beside_it[:rows]), default=0)
    right = min(longest, columns * 3 // 5 if rows == 1 else columns // 2)
    left = columns - right - 2
    large = look.box(look.letters(title, left, rows), left + 2, rows)
    lines = [
        look.text(cut(text, right).rjust(right), right, ink=look.theme.quiet)
        for text in beside_it[:rows]
    ]
    return beside(large, look.box(above(*lines), right, rows))
