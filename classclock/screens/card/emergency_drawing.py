"""How the emergency card is drawn: what to do at once is the largest, in words for the room."""

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import Line, heights, least_rows, stack
from classclock.screens.card.emergency_lines import first_lines, other_lines

MARGIN = 2
"""Columns at either side."""


def draw_card(card: Emergency, columns: int, rows: int, look: Look, *, before: bool) -> Drawing:
    """The card in a box of this size; `before` as in `other_lines`."""
    first, others, inner = first_lines(card), other_lines(card, before=before), columns - 2 * MARGIN
    high = first_rows(first, others, inner, rows, look)
    # Told apart by its ground, which takes no row.
    at_once = look.on(look.theme.ink, look.theme.ground)
    return above(
        at_once.box(stack(first, inner, high, at_once), columns, high, across="middle"),
        look.box(stack(others, inner, rows - high, look), columns, rows - high, across="middle"),
    )


def first_rows(
    first: tuple[Line, ...], others: tuple[Line, ...], columns: int, rows: int, look: Look
) -> int:
    """How many of the rows are best given to the first lines: the largest, the others large too."""
    sizes = {line.size for line in others if line.text}

    def how_well(high: int) -> tuple[bool, bool, int]:
        above_it = heights(first, columns, high, look)
        under = heights(others, columns, rows - high, look)
        largest = max(map(under.of, sizes))
        return (
            above_it.title > largest,
            above_it.main >= largest,
            above_it.title * above_it.main * largest**2,
        )

    least = least_rows(first, columns, look)
    most = max(least, rows - least_rows(others, columns, look))
    return max(range(least, most + 1), key=how_well)
