"""The settle: after a piece, each lane's score, and who is still to be asked."""

from collections.abc import Sequence

from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.parts import Arrangement, Beside, OneOf, Role, Stack, Written
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.settle.score_layout import (
    MOST_PAGES,
    TableWay,
    best_way,
    score_table,
    table_ways,
)
from classclock.screens.live.settle.score_table import score_inks
from classclock.wall.seen.page_turning import PageOn
from classclock.wall.settle_content import SettlePage

_FIRST = PageOn()
_LETTERS = 3
"""Rows of the smallest drawn letters: what is asked is never in terminal text."""


class SettleView(Painted):
    """The scores of the piece that is over, and who is asked what, the first of it large."""

    page: SettlePage | None = None
    _on = _FIRST

    def show(self, page: SettlePage, on: PageOn) -> None:
        """Show the piece on the board. `on` is which page of it, where not all has room on one."""
        if (page, on) != (self.page, self._on):
            self.page, self._on = page, on
            self.repaint()

    @property
    def pages(self) -> int:
        """How many there are at this size."""
        return len(laid_out(self.page, *self.box, self.look).pages) if self.page else 1

    @property
    def page_shown(self) -> int:
        """Which of them is seen."""
        if self.page is None:
            return 0
        return _page_on(self.page, laid_out(self.page, *self.box, self.look), self._on)

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.page is None:
            return self.look.gap(columns, rows)
        return draw_settle(self.page, columns, rows, self.look, self._on)


def draw_settle(
    page: SettlePage, columns: int, rows: int, look: Look, on: PageOn = _FIRST
) -> Drawing:
    """The page in a box of this size."""
    theme, inner = look.theme, columns - 2
    laid = laid_out(page, columns, rows, look)
    number, count = _page_on(page, laid, on), len(laid.pages)
    place = _place(number + 1, count)
    if "place" in laid.spots and len(place) > laid.spots["place"].box.width:
        place = _short_place(number + 1, count)
    inks = {
        "title": Ink(bold=True),
        "state": Ink(theme.quiet),
        "place": Ink(words=place),
        "about": Ink(theme.quiet),
        "question": Ink(theme.doubtful, bold=True),
        "hint": Ink(theme.doubtful if page.question else theme.ink, bold=True),
        **dict(score_inks(page.rows, laid, look)),
    }
    drawn = draw_arranged(laid.pages[number], inner, rows, look, inks=inks)
    return look.box(drawn, columns, rows, across="middle")


def laid_out(page: SettlePage, columns: int, rows: int, look: Look) -> Arranged:
    """Where all of it stands in a box of this size."""
    box, measure = (columns - 2, rows), CellMeasure(look.terminal)

    def laid(least: int) -> Arranged:
        def best(*, paged: bool) -> Arranged:
            ways = (_parts(page, box, way, paged=paged, least=least) for way in table_ways(box[0]))
            every = (arrange(way, *box, measure, most_pages=MOST_PAGES) for way in ways)
            return best_way(every, rows)

        alone = best(paged=False)
        return alone if len(alone.pages) == 1 else best(paged=True)

    usual = laid(1)
    small = usual.sizes.get("question", _LETTERS) < _LETTERS
    return laid(_LETTERS) if small else usual  # where all is too much, what is asked comes first


def _page_on(page: SettlePage, laid: Arranged, on: PageOn) -> int:
    """Whoever is selected or asked is in view; else the pages take turns."""
    count = len(laid.pages)
    lit = next((number for number, row in enumerate(page.rows) if row.selected), None)
    if count == 1 or on.by_hand or (lit is None and not page.question):
        return on.of(count)
    # Who is asked stands first.
    return next(at for at, spots in enumerate(laid.pages) if ("name", lit or 0) in spots)


def _place(number: int, count: int) -> str:
    return f"page {number} of {count}: left, right"


def _short_place(number: int, count: int) -> str:
    return f"{number} of {count}"


def _parts(
    page: SettlePage, box: tuple[int, int], way: TableWay, *, paged: bool, least: int
) -> Arrangement:
    """`least`: rows that the letters of what is asked have at least."""
    return Stack(
        (
            Beside(
                (
                    Written("title", page.title, "title", role="coach"),
                    _worded("state", (page.state, page.short_state), role="coach"),
                    _worded("place", (_place(99, 99), _short_place(99, 99)), role="coach")
                    if paged
                    else Written("place", "", "place", role="coach"),
                )
            ),
            Written("about", page.words, "about", role="detail"),
            _worded("question", (page.question, page.short_question), matters=3, least=least)
            if page.question
            else Stack(()),
            score_table(page.rows, box, rank="detail", way=way),
            Written("detail", page.detail, "detail", role="coach", breaks=True),
            Written("hint", page.hint, "hint", role="coach", breaks=True),
        ),
        air=1,
    )


def _worded(
    name: str, wordings: Sequence[str], *, role: Role = "room", matters: int = 0, least: int = 1
) -> Arrangement:
    """In the first wording that comes out as large as any."""
    texts = [text for text in dict.fromkeys(wordings) if text] or [""]
    ways = (
        Written(name, text, name, role, matters, breaks=role == "room", least=least)
        for text in texts
    )
    return OneOf(tuple(ways))
