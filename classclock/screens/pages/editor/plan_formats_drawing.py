"""How the formats are drawn, of which a new segment has one."""

from classclock.plan.model import FORMATS
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.pages.editor.plan_editor_desk import PlanEditorDesk

_NAME_COLUMNS = max(map(len, FORMATS)) + 4
"""A format's number and name, and a space behind it."""


def draw_formats(desk: PlanEditorDesk, columns: int, rows: int, look: Look) -> Drawing:
    theme = look.theme
    drawn = [look.text("a new segment:", columns, bold=True), look.gap(columns)]
    for number, (written, form) in enumerate(FORMATS.items()):
        lit = number == desk.format_at.at
        here = look.on(theme.bar) if lit else look
        name = here.text(f"{'▌' if lit else ' '}{number + 1} {written}", _NAME_COLUMNS, bold=True)
        words = here.text(form.about.offered_as, columns - _NAME_COLUMNS, ink=theme.quiet)
        drawn.append(beside(name, words))
    return look.box(above(*drawn), columns, rows)
