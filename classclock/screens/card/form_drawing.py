"""The lines of the emergency card while they are typed, under each other."""

from pathlib import Path

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_desk import CardDesk
from classclock.screens.controls.question_drawing import QuestionPage, draw_question
from classclock.screens.controls.typed_drawing import draw_typed
from classclock.units.printable import printable
from classclock.wall.emergency_words import CARD_LINES

_LABEL = 16
"""Columns."""


def draw_filling_in(desk: CardDesk, path: Path, columns: int, rows: int, look: Look) -> Drawing:
    """The page that asks for the card's lines; `path` is where they will be written."""
    page = QuestionPage(
        title="emergency card",
        beside="",
        asked=desk.asked(last="writes the card"),
        note="It opens with ! or F2 in a class, and holds the clock.",
        notice=desk.notice,
        foot=f"written to {path}",
    )
    return draw_question(page, columns, rows, look, form=draw_form(desk, columns - 2, look))


def draw_form(desk: CardDesk, columns: int, look: Look) -> Drawing:
    """A row for each line; the one that is typed shows its caret."""
    return above(*(_row(desk, name, columns, look) for name in desk.lines))


def _row(desk: CardDesk, name: str, columns: int, look: Look) -> Drawing:
    lit, line = name == desk.name, desk.lines[name]
    here = look.on(look.theme.bar) if lit else look
    label = here.text(
        f"{'▌' if lit else ' '} {CARD_LINES[name].label}", _LABEL, ink=look.theme.quiet
    )
    if lit:
        return beside(label, draw_typed(line, columns - _LABEL, here))
    ink = look.theme.ink if line.text else look.theme.quiet
    return beside(label, here.text(printable(line.text, 400) or "-", columns - _LABEL, ink=ink))
