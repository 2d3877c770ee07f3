"""A box of a few rows at the foot of the screen, in which something is asked."""

from msgspec import Struct
from textual.geometry import Size
from textual.widget import Widget

from classclock.screens.canvas.cells import Drawing, above, beside, width
from classclock.screens.canvas.look import Look


class BoxQuestion(Struct, frozen=True):
    question: str
    typed: str
    """What is typed so far; large where there is room."""
    foot: str
    """What the keys do."""
    more: tuple[str, ...] = ()
    """Rows under the question, beyond those of the box."""
    caret: bool = True
    """Whether more can be typed."""


class AtTheFoot(Widget):
    """For a style of `height: auto`: seven rows, three on a small screen."""

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  Textual's signature
        return 7 if viewport.height >= 30 else 3


def draw_asked(asked: BoxQuestion, columns: int, rows: int, look: Look) -> Drawing:
    theme = look.theme
    here, inner = look.on(theme.bar), columns - 4
    rows_left = rows - len(asked.more)
    high = 3 if rows_left >= 7 else 1
    letters = here.letters(asked.typed, inner - 2, high) if asked.typed else here.gap(0, high)
    typed = here.box(letters, width(letters) + 1, high, down="middle")
    if asked.caret:
        typed = beside(typed, here.on(theme.ink).gap(1, high))
    parts = [
        here.text(asked.question, inner, bold=True),
        *(here.text(line, inner, bold=True) for line in asked.more),
        here.box(typed, inner, high),
        here.text(asked.foot, inner, ink=theme.quiet),
    ]
    if rows_left >= high + 4:
        parts = [here.gap(inner), *parts]
    return here.box(above(*parts), columns, rows, across="middle")
