"""What to look out for, as lines of a board: none of them is ever left out."""

from collections.abc import Sequence

from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import Line, Size, fit, least_rows
from classclock.wall.board_content import BoardContent

_MATTERS = 2
"""`keep` of a line that isn't given up for larger type."""


def caution_line(text: str, look: Look, size: Size = "second") -> Line:
    theme = look.theme
    return Line(f" ! {text}", size, ink=theme.alarm_ink, ground=theme.alarm_ground, bold=True)


def caution_ways(
    content: BoardContent, look: Look, columns: int, rows: int, others: int = 0
) -> tuple[tuple[Line, ...], ...]:
    """The ways to set them, the largest first: `largest` says which.

    When to stop comes first, as large as what is to be done until it has stood on a board of this
    class. All are a line each; one line that breaks where they would take the rows of what is to
    be done: `rows` is what there is, `others` how many of them that takes at least.
    """
    rest = tuple(caution_line(text, look) for text in content.cautions)
    sizes: tuple[Size, ...] = ("plain",) if content.stop_stood else ("main", "second")
    stop = [(caution_line(content.stop, look, size),) for size in sizes] if content.stop else [()]
    ways = tuple((*first, *rest) for first in stop)
    least = ways[-1]
    together = tuple(
        Line("".join(one.text for one in least), ink=line.ink, ground=line.ground, bold=True)
        for line in least[:1]
    )
    taken, in_one = (least_rows(lines, columns, look) for lines in (least, together))
    makes_room = taken > rows or in_one + others <= rows < taken + others
    return (together,) if makes_room else ways


def largest(
    ways: Sequence[tuple[Line, ...]], columns: int, rows: int, look: Look
) -> tuple[Line, ...]:
    """The first of the ways that makes nothing else smaller, and nothing go that matters."""
    matter = ([line for line in lines if line.keep <= _MATTERS] for lines in ways)
    fits = [fit(lines, columns, rows, look) for lines in matter]
    return ways[fits.index(max(fits))]
