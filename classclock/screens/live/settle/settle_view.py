"""The settle: after a piece, each lane's score, and who is still to be asked."""

from msgspec import Struct

from classclock.live.live_class import LiveClass
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.canvas.painted import Painted
from classclock.screens.canvas.stack import Line, heights, stack
from classclock.screens.live.settle.score_layout import type_rows
from classclock.screens.live.settle.score_table import draw_scores
from classclock.wall.best_words import RunStandings
from classclock.wall.settle_content import SettlePage, settle_page

_SHARE = 4
"""What is asked first takes one row in so many."""
_LEAST = 6
"""It takes two lines of the smallest large letters all the same."""


_LARGE = 3
"""Rows from which letters are large."""


class SettleView(Painted):
    """The scores of the piece that is over, and who is asked what, the first of it large."""

    def __init__(self, look: Look, *, mirrored: bool = True, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.mirrored = mirrored
        self.page: SettlePage | None = None

    def show(
        self,
        live: LiveClass,
        selected: str | None,
        saved: tuple[str, ...] = (),
        standings: RunStandings | None = None,
    ) -> None:
        """Show the piece on the board as it stands. `saved`: the names of its results files."""
        page = settle_page(live, selected, saved, mirrored=self.mirrored, standings=standings)
        if page != self.page:
            self.page = page
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.page is None:
            return self.look.gap(columns, rows)
        return draw_settle(self.page, columns, rows, self.look)


def draw_settle(page: SettlePage, columns: int, rows: int, look: Look) -> Drawing:
    """The page in a box of this size."""
    high = heading_rows(rows)
    inner = columns - 2
    heading = draw_heading(page.title, (page.state, page.words), inner, high, look)
    ink = look.theme.doubtful if page.question else look.theme.ink
    hint = look.text(page.hint, inner, ink=ink, bold=True)
    left = rows - high - 3
    question = _question(page, inner, left, max(_LEAST, rows // _SHARE), look)
    table = draw_scores(page.rows, inner, left - len(question), look)
    detail = look.text(page.detail, inner)
    drawn = above(heading, look.gap(inner), question, table, detail, hint)
    return look.box(drawn, columns, rows, across="middle")


def _question(page: SettlePage, columns: int, rows: int, most: int, look: Look) -> Drawing:
    """What is asked first, in `most` of these rows, or fewer where the scores come out large then.

    In the first wording that has room in large letters.
    """
    texts = [text for text in (page.question, page.short_question) if text]
    if not texts:
        return look.gap(columns, 0)
    ways = [
        _large(text, columns, high, look)
        for high in dict.fromkeys((most, _LEAST))
        for text in texts
    ]
    large = [way for way in ways if way.rows >= _LARGE] or ways[-1:]
    readable = (
        way for way in large if type_rows(page.rows, columns, rows - len(way.drawn), look) >= _LARGE
    )
    return next(readable, large[0]).drawn


class _Way(Struct, frozen=True):
    """How high its letters are, and the words as they come out."""

    rows: int
    drawn: Drawing


def _large(text: str, columns: int, most: int, look: Look) -> _Way:
    """As large as it gets in so many rows, in no more of them than that takes."""
    lines = (Line(text, "title", ink=look.theme.doubtful, bold=True),)
    largest = heights(lines, columns, most, look)
    rows = next(n for n in range(1, most + 1) if heights(lines, columns, n, look) == largest)
    return _Way(largest.title, stack(lines, columns, rows, look))
