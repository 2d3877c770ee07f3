"""The end of the class: one piece after the other with its scores, and where they are kept."""

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from classclock.screens.canvas.arranged_drawing import Ink, draw_arranged
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.parts import Arrangement, Beside, Name, OneOf, Stack, Written
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
from classclock.wall.summary_content import PieceSummary, Summary

_TURN = "left, right: another page; space: it stays; up: back"
_KEYS = "up: back to the last segment; ctrl+q leaves"
_LAST = "in brackets the last time"
_FIRST = PageOn()


class _PiecePage(Struct, frozen=True):
    """A piece, or a part of it where not all of it has room; which page of it."""

    piece: PieceSummary
    laid: Arranged
    number: int


class SummaryView(Painted):
    """Stays until the coach leaves."""

    page: Summary | None = None
    on = _FIRST

    def show(self, page: Summary, on: PageOn) -> None:
        """Show the page that is on."""
        if (page, on) != (self.page, self.on):
            self.page, self.on = page, on
            self.repaint()

    @property
    def pages(self) -> int:
        """How many there are at this size."""
        return len(_pages(self.page, *self.box, self.look)) if self.page else 1

    @property
    def page_shown(self) -> int:
        """Which of them is seen."""
        return self.on.of(self.pages)

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.page is None:
            return self.look.gap(columns, rows)
        return draw_summary(self.page, columns, rows, self.look, self.on)


def draw_summary(
    page: Summary, columns: int, rows: int, look: Look, on: PageOn = _FIRST
) -> Drawing:
    """The page that is on, in a box of this size."""
    theme, inner = look.theme, columns - 2
    pages = _pages(page, columns, rows, look)
    at = on.of(len(pages))
    shown, many = pages[at], len(pages) > 1
    inks: dict[Name, Ink] = {
        "well done": Ink(theme.ahead.text, bold=True),
        "title": Ink(bold=True),
        "place": Ink(theme.quiet, words=f"{at + 1} of {len(pages)}" if many else ""),
        "about": Ink(theme.quiet),
        "saved": Ink(theme.quiet),
        "keys": Ink(bold=True),
        **{("asked", number): Ink(bold=True) for number in range(len(page.asked))},
        **dict(score_inks(shown.piece.rows, shown.laid, look)),
    }
    drawn = draw_arranged(shown.laid.pages[shown.number], inner, rows, look, inks=inks)
    return look.box(drawn, columns, rows, across="middle")


@lru_cache(maxsize=2)  # what is on, and in the window's other size
def _pages(page: Summary, columns: int, rows: int, look: Look) -> tuple[_PiecePage, ...]:
    """Every piece in its order, each on as few pages as let it be read from the back."""
    pieces = page.pieces or (PieceSummary(page.title, "", ()),)
    box = columns - 2, rows
    alone = _laid_out(page, pieces, _KEYS, look, box=box) if len(pieces) == 1 else ()
    if len(alone) == 1:
        return alone
    return _laid_out(page, pieces, _TURN, look, box=box)


def _laid_out(
    page: Summary,
    pieces: Sequence[PieceSummary],
    keys: str,
    look: Look,
    *,
    box: tuple[int, int],
) -> tuple[_PiecePage, ...]:
    measure = CellMeasure(look.terminal)

    def laid(piece: PieceSummary, way: TableWay) -> Arranged:
        parts = _parts(page, piece, keys, box, way)
        return arrange(parts, *box, measure, most_pages=MOST_PAGES)

    def best(piece: PieceSummary) -> Arranged:
        """Last scores are small where that saves pages; beside larger new bests are no words."""
        tried = {way: laid(piece, way) for way in _ways(box[0])}
        chosen = best_way(tried.values(), box[1])
        way = next(way for way, one in tried.items() if one is chosen)
        if not any(row.new_best for row in piece.rows):
            return chosen
        wordless = laid(piece, replace(way, worded=False))
        return max(chosen, wordless, key=lambda one: one.sizes["cheer"])

    return tuple(
        _PiecePage(piece, laid, number)
        for piece in pieces
        for laid in [best(piece)]
        for number in range(len(laid.pages))
    )


def _ways(columns: int) -> tuple[TableWay, ...]:
    """Where there is one alone the scores before may be small."""
    ways = table_ways(columns)
    return ways if len(ways) > 1 else (*ways, replace(ways[0], last="coach"))


def _parts(
    page: Summary, piece: PieceSummary, keys: str, box: tuple[int, int], way: TableWay
) -> Arrangement:
    beside_last = _LAST if any(row.last for row in piece.rows) else ""
    about = "; ".join(filter(None, (piece.words, beside_last)))
    return Stack(
        (
            Beside(
                (
                    Written("title", piece.name, "title", "coach", 3),
                    Written("well done", "Well done", "well done", role="detail", across="right"),
                    Written("place", "99 of 99", "place", role="coach", across="right"),
                )
            ),
            Written("about", about, "about", role="detail", matters=1),
            score_table(piece.rows, box, rank="room", way=way),
            *(
                Written(("asked", number), text, "asked", role="coach", breaks=True)
                for number, text in enumerate(page.asked)
            ),
            OneOf(
                tuple(
                    Written("saved", text, "saved", role="coach")
                    for text in dict.fromkeys((page.saved, page.short_saved))
                )
            ),
            Written("keys", keys, "keys", role="coach", breaks=True),
        ),
        air=1,
    )
