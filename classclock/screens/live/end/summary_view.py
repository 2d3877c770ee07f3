"""The end of the class: every piece with its scores, and where they are kept."""

from classclock.live.live_class import LiveClass
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.settle.score_layout import type_rows
from classclock.screens.live.settle.score_table import draw_scores
from classclock.wall.best_words import RunStandings
from classclock.wall.summary_content import PieceSummary, Summary, summary

_BETWEEN = 4
_KEYS = "up goes back to the last segment     ctrl+q leaves"


class SummaryView(Painted):
    """Stays until the coach leaves."""

    page: Summary | None = None

    def show(
        self, live: LiveClass, saved: tuple[str, ...], standings: RunStandings | None = None
    ) -> None:
        """Show all pieces. `saved`: the paths of the results, as they are to be read."""
        page = summary(live, saved, standings)
        if page != self.page:
            self.page = page
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.page is None:
            return self.look.gap(columns, rows)
        return draw_summary(self.page, columns, rows, self.look)


def draw_summary(page: Summary, columns: int, rows: int, look: Look) -> Drawing:
    """The page in a box of this size."""
    theme, inner = look.theme, columns - 2
    high = heading_rows(rows)
    heading = draw_heading("Well done", (page.title,), inner, high, look)
    last = (
        look.text(page.saved, inner, ink=theme.quiet),
        look.text(_KEYS, inner, bold=True),
    )
    space = rows - high - 1 - len(last)
    pieces = _pieces(page.pieces, inner, space, look)
    drawn = above(heading, look.gap(inner), pieces, *last)
    return look.box(drawn, columns, rows, across="middle")


def _pieces(pieces: tuple[PieceSummary, ...], columns: int, rows: int, look: Look) -> Drawing:
    """Side by side or one under the other, whichever gives the larger letters."""
    if not pieces:
        return look.gap(columns, rows)
    count = len(pieces)
    each = (columns - _BETWEEN * (count - 1)) // count
    if count == 1 or _smallest(pieces, each, rows, look) >= _smallest(
        pieces, columns, rows // count, look
    ):
        gap = look.gap(_BETWEEN, rows)
        drawn = [_piece(piece, each, rows, look) for piece in pieces]
        together = beside(drawn[0], *(part for one in drawn[1:] for part in (gap, one)))
        return look.box(together, columns, rows)
    ends = [rows * number // count for number in range(count + 1)]
    return above(
        *(
            _piece(piece, columns, ends[number + 1] - ends[number], look)
            for number, piece in enumerate(pieces)
        )
    )


def _smallest(pieces: tuple[PieceSummary, ...], columns: int, rows: int, look: Look) -> int:
    """How high the smallest letters are if each piece gets a box of this size."""
    left = rows - _above_scores(rows)
    return min(type_rows(piece.rows, columns, left, look) for piece in pieces)


def _above_scores(rows: int) -> int:
    """Rows for a piece's name and words, and a gap where there is room."""
    return 5 if rows >= 20 else 2


def _piece(piece: PieceSummary, columns: int, rows: int, look: Look) -> Drawing:
    high = _above_scores(rows)
    name = look.letters(piece.name, columns, 3 if high > 2 else 1)
    words = look.text(piece.words, columns, ink=look.theme.quiet)
    table = draw_scores(piece.rows, columns, rows - high, look)
    top = look.box(above(look.box(name, columns, len(name)), words), columns, high)
    return look.box(above(top, table), columns, rows)
