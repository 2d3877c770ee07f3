"""The board of a lift: the plan above, everybody's load and plates under it."""

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import Line, least_rows, stack
from classclock.screens.live.board.caution_lines import caution_ways, largest
from classclock.screens.live.board.lift_drawing import draw_lifts
from classclock.tally.signs import signed
from classclock.wall.board_content import BoardContent
from classclock.wall.lift_content import LiftBoard

_TWO_SIDES = 100
"""Columns from which the cautions stand beside the plan."""
_SHARE = 0.3
"""Of the rows that goes to the plan, where everybody's loads leave it that."""
_ROOMY = 6
"""Rows of a plan that reads from afar."""


def draw_lift_body(
    content: BoardContent, lift: LiftBoard, columns: int, rows: int, look: Look
) -> Drawing:
    """What is between the board's first row and its foot. Cautions are never left out."""
    two_sides = columns >= _TWO_SIDES
    left = columns * 11 // 20
    right = columns - left - 3
    plan = _plan(content, lift, look)
    cautions = caution_ways(content, look, right if two_sides else columns, rows)
    ways = [_care(content, lift, one, look) for one in cautions]
    if two_sides and ways[0]:
        least = max(least_rows(plan, left, look), least_rows(ways[0], right, look))
        high = _head_rows(least, len(lift.lanes), rows)
        care = largest(ways, right, high, look)
        head = beside(
            stack(plan, left, high, look), look.gap(3, high), stack(care, right, high, look)
        )
    else:
        ways = [(*plan, *care) for care in ways]
        high = _head_rows(least_rows(ways[0], columns, look), len(lift.lanes), rows)
        head = stack(largest(ways, columns, high, look), columns, high, look)
    spare = 1 if rows >= 24 else 0
    under = rows - high - spare
    return above(head, look.gap(columns, spare), draw_lifts(lift.lanes, columns, under, look))


def _head_rows(least: int, lanes: int, rows: int) -> int:
    """Rows of the plan: its share, less where lanes can be drawn large with what it gives up."""
    wanted = max(least, round(rows * _SHARE))
    if lanes * 3 > rows - least:
        lanes = -(-lanes // 2)  # they stand in two columns
    for each, head in ((6, _ROOMY), (3, least)):
        left = rows - 1 - lanes * each
        if left >= max(least, head):
            return min(wanted, left)
    return min(wanted, max(least, rows - 1))


def _plan(content: BoardContent, lift: LiftBoard, look: Look) -> tuple[Line, ...]:
    quiet = look.theme.quiet
    return (
        Line(content.name, "title", bold=True),
        Line(lift.title, "main", bold=True),
        Line(content.words, keep=6, ink=quiet),
        *(Line(text, keep=5) for text in content.lines),
    )


def _care(
    content: BoardContent, lift: LiftBoard, cautions: tuple[Line, ...], look: Look
) -> tuple[Line, ...]:
    theme = look.theme
    short = (
        (Line(signed("not all at once", lift.short), "second", ink=theme.doubtful, bold=True),)
        if lift.short
        else ()
    )
    notes = (Line(text, keep=5, ink=theme.quiet) for text in content.notes)
    return (*cautions, *short, *notes)
