"""How the emergency card is drawn: nothing is larger than what to do at once, in words for all."""

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.nodes import Spots
from classclock.screens.canvas.layout.parts import Lead
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_lines import AT_ONCE, FOR_THE_ROOM, card_parts

MARGIN = 2
"""Columns at either side."""
_LEAD = Lead("call", 1, over=FOR_THE_ROOM)


def draw_card(card: Emergency, columns: int, rows: int, look: Look, *, before: bool) -> Drawing:
    """The card in a box of this size; `before` as in `other_lines`."""
    inner = columns - 2 * MARGIN
    spots = laid_out(card, inner, rows, look, before=before).spots
    first: Spots = {name: spot for name, spot in spots.items() if name in AT_ONCE}
    high = max((spot.box.y + spot.box.height for spot in first.values()), default=0)
    # Told apart by its ground, which takes no row.
    at_once = look.on(look.theme.ink, look.theme.ground)
    bold = Ink(bold=True)
    upper = draw_arranged(first, inner, high, at_once, inks=dict.fromkeys(AT_ONCE, bold))
    others = _raised({name: spot for name, spot in spots.items() if name not in AT_ONCE}, high)
    lower = draw_arranged(others, inner, rows - high, look, inks=dict.fromkeys(others, bold))
    return above(
        at_once.box(upper, columns, high, across="middle"),
        look.box(lower, columns, rows - high, across="middle"),
    )


def laid_out(card: Emergency, columns: int, rows: int, look: Look, *, before: bool) -> Arranged:
    """Where all of it stands, and how large."""
    measure = CellMeasure(look.terminal)
    return arrange(card_parts(card, before=before), columns, rows, measure, lead=_LEAD)


def _raised(spots: Spots, by: int) -> Spots:
    """The same so many rows higher up."""
    return {
        name: spot._replace(box=spot.box._replace(y=spot.box.y - by))
        for name, spot in spots.items()
    }
