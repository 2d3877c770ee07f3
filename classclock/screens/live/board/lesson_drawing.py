"""The board while one movement is taught: nothing else stands on it, so that it can be large."""

from collections.abc import Iterator

from classclock.screens.canvas.cells import Drawing, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.stack import Line, Size, stack
from classclock.screens.live.board.caution_lines import caution_line
from classclock.wall.lesson_content import Lesson

_KEYS = "tab: next movement; escape: the plan"
_ROOMY = 24
"""Rows from which points can be large too; in fewer the name alone is."""


def draw_lesson(lesson: Lesson, columns: int, rows: int, look: Look) -> Drawing:
    """The movement in a box of this size. Its cautions are never left out."""
    spare = 1 if rows >= _ROOMY else 0
    inner = columns - 4
    name: Size = "main" if rows >= _ROOMY else "title"
    body = stack(tuple(_lines(lesson, name, look)), inner, rows - 1 - spare, look)
    right = min(len(lesson.place), inner)
    foot = beside(
        look.text(_KEYS, inner - right, ink=look.theme.quiet),
        look.text(lesson.place, right, ink=look.theme.quiet),
    )
    drawn = (*body, *look.gap(inner, spare), *foot)
    return look.box(drawn, columns, rows, across="middle")


def _lines(lesson: Lesson, name: Size, look: Look) -> Iterator[Line]:
    """What the plan's board says too goes before the letters get smaller."""
    theme = look.theme
    if lesson.words not in ("", lesson.name):
        yield Line(lesson.words, keep=5, ink=theme.quiet)
    yield Line(lesson.name, name, keep=1, ink=theme.key, bold=True)
    for text in lesson.cautions:
        yield caution_line(text, look)
    if lesson.standard:
        yield Line(keep=7)
        said = f"counts: {lesson.standard}"  # on a ground of its own: gaps may be gone
        yield Line(said, "second", keep=1, ground=theme.band, bold=True)
    if lesson.points:
        yield Line(keep=7)
    for text in lesson.points:
        yield Line(text, "main", keep=1, ink=theme.ink, bold=True)
    if lesson.options:
        yield Line(keep=7)
        yield Line(f"easier: {', '.join(lesson.options)}", keep=6, ink=theme.quiet)
