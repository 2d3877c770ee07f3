"""How a page that asks one question is drawn: what is asked, why, and what its keys do."""

from msgspec import Struct

from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.canvas.stack import Line, least_rows, stack
from classclock.screens.controls.page_question import PageQuestion
from classclock.units.printable import printable


class QuestionPage(Struct, frozen=True):
    title: str
    beside: str
    """Quietly at the right of the title."""
    asked: PageQuestion
    note: str
    """What is said under the keys, where there is room."""
    notice: str
    foot: str


def draw_question(
    page: QuestionPage, columns: int, rows: int, look: Look, *, form: Drawing = ()
) -> Drawing:
    """The page in a box of this size; `form` is what is being filled in, two columns narrower."""
    inner = columns - 2
    high = heading_rows(rows)
    heading = draw_heading(page.title, (page.beside,), inner, high, look)
    question = stack((Line(page.asked.question, "title", bold=True),), inner, high + 1, look)
    foot = above(
        look.text(page.notice, inner, ink=look.theme.doubtful, bold=True),
        look.text(printable(page.foot, 300), inner, ink=look.theme.quiet),
    )
    gap = look.gap(inner)
    why = (Line(page.asked.why),)
    over = [heading, gap, gap, question, gap, stack(why, inner, least_rows(why, inner, look), look)]
    over += [gap, form, gap] if form else [gap]
    keys = (
        Line(page.asked.keys, bold=True),
        Line(keep=6),
        Line(printable(page.note, 300), keep=3, ink=look.theme.quiet),
    )
    left = max(1, rows - sum(map(len, over)) - len(foot))
    return look.box(
        above(*over, stack(keys, inner, left, look), foot), columns, rows, across="middle"
    )
