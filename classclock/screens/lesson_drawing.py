"""The board while one movement is taught: nothing else stands on it, so that it can be large."""

from collections.abc import Iterator

from classclock.screens.drawing.cells import Drawing, beside
from classclock.screens.lesson_content import Lesson
from classclock.screens.look import Look
from classclock.screens.stack import Line, stack

_KEYS = "tab: the next movement, then the plan; escape: the plan"


def draw_lesson(lesson: Lesson, columns: int, rows: int, look: Look) -> Drawing:
    """The movement in a box of this size. Its cautions are never left out."""
    spare = 1 if rows >= 24 else 0
    inner = columns - 4
    words = lesson.words if lesson.words != lesson.name else ""
    right = min(len(lesson.place), inner)
    top = beside(
        look.text(words, inner - right, ink=look.theme.quiet),
        look.text(lesson.place, right, ink=look.theme.quiet),
    )
    foot = look.text(_KEYS, inner, ink=look.theme.quiet)
    body = stack(tuple(_lines(lesson, look)), inner, rows - 2 - 2 * spare, look)
    gap = look.gap(inner, spare)
    drawn = (*top, *gap, *body, *gap, *foot)
    return look.box(drawn, columns, rows, across="middle")


def _lines(lesson: Lesson, look: Look) -> Iterator[Line]:
    theme = look.theme
    yield Line(lesson.name, "main", keep=1, ink=theme.key, bold=True)
    for text in lesson.cautions:
        yield Line(
            f" ! {text}", "second", ink=theme.alarm_ink, ground=theme.alarm_ground, bold=True
        )
    if lesson.standard:
        yield Line(keep=6)
        yield Line(f"counts: {lesson.standard}", "main", keep=1, bold=True)
    if lesson.points:
        yield Line(keep=6)
    for text in lesson.points:
        yield Line(text, "main", keep=1, bold=True)
    if lesson.options:
        yield Line(keep=6)
        yield Line(f"easier: {', '.join(lesson.options)}", keep=3, ink=theme.quiet)
