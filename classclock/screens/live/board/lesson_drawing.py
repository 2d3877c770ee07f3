"""The board while one movement is taught: nothing else stands on it, so that it can be large."""

from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, beside
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.parts import Arrangement, Stack, Written
from classclock.screens.canvas.look import Look
from classclock.screens.live.board.caution_layout import caution_ink, cautions_together
from classclock.wall.lesson_content import Lesson

_KEYS = "tab: next movement; escape: the plan"
_ROOMY = 24
"""Rows from which one is free over the foot."""
_MARGIN = 2


def draw_lesson(lesson: Lesson, columns: int, rows: int, look: Look) -> Drawing:
    """The movement in a box of this size. Its cautions are never left out."""
    spare = 1 if rows >= _ROOMY else 0
    inner, high, theme = columns - 2 * _MARGIN, rows - 1 - spare, look.theme
    laid = lesson_layout(lesson, inner, high, CellMeasure(look.terminal))
    inks = {
        "words": Ink(theme.quiet),
        "name": Ink(theme.key, bold=True),
        "standard": Ink(ground=theme.band, bold=True),
        "options": Ink(theme.quiet),
        "point": Ink(bold=True),
        "caution": caution_ink(look),
    }
    shown = {name: inks[name if isinstance(name, str) else str(name[0])] for name in laid.spots}
    body = draw_arranged(laid.spots, inner, high, look, inks=shown)
    right = min(len(lesson.place), inner)
    foot = beside(
        look.text(_KEYS, inner - right, ink=theme.quiet),
        look.text(lesson.place, right, ink=theme.quiet),
    )
    drawn = (*body, *look.gap(inner, spare), *foot)
    return look.box(drawn, columns, rows, across="middle")


def lesson_layout(lesson: Lesson, columns: int, rows: int, measure: CellMeasure) -> Arranged:
    """What counts, what to coach and what to look out for are read from the back."""
    words = lesson.words if lesson.words != lesson.name else ""
    standard = f"counts: {lesson.standard}" if lesson.standard else ""
    options = f"easier: {', '.join(lesson.options)}" if lesson.options else ""

    lines: tuple[Arrangement, ...] = (
        Written("words", words, "words", "detail", 2, breaks=True),
        Written("name", lesson.name, "name", matters=8, breaks=True),
        cautions_together(lesson.cautions),
        Written("standard", standard, "standard", matters=7, breaks=True),
        *(
            Written(("point", number), point, "point", matters=6, breaks=True)
            for number, point in enumerate(lesson.points)
        ),
        Written("options", options, "options", "detail", 1, breaks=True),
    )
    return arrange(Stack(lines, air=1), columns, rows, measure)
