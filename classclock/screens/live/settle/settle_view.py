"""The settle: after a piece, each lane's score, and who is still to be asked."""

from classclock.live.live_class import LiveClass
from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.settle.score_table import draw_scores
from classclock.wall.best_words import RunStandings
from classclock.wall.settle_content import SettlePage, settle_page


class SettleView(Painted):
    """The scores of the piece that is over, the unsettled first."""

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
    ink = look.theme.doubtful if page.asks else look.theme.ink
    hint = look.text(page.hint, inner, ink=ink, bold=True)
    table = draw_scores(page.rows, inner, rows - high - 3, look)
    detail = look.text(page.detail, inner)
    drawn = above(heading, look.gap(inner), table, detail, hint)
    return look.box(drawn, columns, rows, across="middle")
