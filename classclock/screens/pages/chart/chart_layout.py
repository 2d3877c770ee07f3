"""The chart as parts of a screen: everybody's best on one benchmark, large; others beside them."""

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec import Struct

from classclock.report.chart.chart import Cell, ChartRow
from classclock.report.chart.chart_words import MODIFIED, NEW, OTHERS, best_words
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.nodes import Spots
from classclock.screens.canvas.layout.parts import Arrangement, Beside, Grid, OneOf, Stack, Written
from classclock.screens.canvas.look import Look
from classclock.screens.pages.chart.chart_desk import ChartDesk
from classclock.units.printable import printable
from classclock.wall.kept_off import DASH

_LETTERS = 3
"""Rows of the smallest drawn letters."""
_TITLE, _TITLE_SHARE = 5, 7
"""Rows of the benchmark's name at most, at least so many: one in so many."""
_ACROSS = (1, 2, 3, 4)
_OTHERS = 3
"""So many benchmarks more are told of each, where there is room."""
_LEGEND = f"{MODIFIED} modified   {NEW} new this month   {OTHERS} another best, otherwise"
_KEYS = (
    "enter: their page   arrows, page up, down: move   tab: sort by this   "
    "F6: who is here   type to find   escape leaves"
)
_KEYS_SHORT = "enter: page   tab: sort   F6: here   escape leaves"


class ChartBlock(Struct, frozen=True):
    """As many in their order as could stand on a screen at most, on as many pages as they take."""

    first: int
    """Which of all the first of them is."""
    rows: tuple[ChartRow, ...]
    laid: Arranged

    def page_of(self, at: int) -> Spots:
        """The page on which this one of all is."""
        name = ("name", at - self.first)
        return next((spots for spots in self.laid.pages if name in spots), self.laid.spots)


def chart_block(
    desk: ChartDesk, told: tuple[str, ...], columns: int, rows: int, look: Look
) -> ChartBlock:
    """Those around whoever is highlighted, in a box of this size; `told` are the words above."""
    most = max(_ACROSS) * max(1, rows // _LETTERS)
    first = desk.search.cursor.within(len(desk.rows)) // most * most
    shown = desk.rows[first : first + most]
    parts = _parts(desk, shown, told, max(_TITLE, rows // _TITLE_SHARE))
    laid = arrange(parts, columns, rows, CellMeasure(look.terminal))
    return ChartBlock(first, shown, laid)


def score_words(cell: Cell | None, *, off: bool) -> str:
    """The best with its signs, which say what colour says too; a dash where it is kept off."""
    if cell is None or off:
        return DASH if cell is not None else ""
    before = MODIFIED if cell.modified else ""
    after = f"{NEW if cell.new else ''}{OTHERS if cell.others else ''}"
    return f"{before}{printable(best_words(cell.best), 16)}{after}"


def _parts(
    desk: ChartDesk, shown: Sequence[ChartRow], told: tuple[str, ...], title: int
) -> Arrangement:
    detail = Written("detail", desk.notice or desk.detail, "detail", role="coach", breaks=True)
    found = f"find: {printable(desk.search.text)}" if desk.search.text else _LEGEND
    keys = (
        Written("keys", text, "keys", role="coach", breaks=True) for text in (_KEYS, _KEYS_SHORT)
    )
    return Stack(
        (
            Beside(
                (
                    Written("title", "Chart", "title", role="coach"),
                    *(
                        Written(("told", number), words, "told", role="detail")
                        for number, words in enumerate(told)
                    ),
                )
            ),
            Written("benchmark", printable(desk.heading, 40), "benchmark", breaks=True, most=title),
            Grid(
                tuple(tuple(_cells(desk, number, row)) for number, row in enumerate(shown)),
                across=_ACROSS,
                paged=True,
            ),
            detail,
            Written("found", found, "found", role="detail", matters=1),
            OneOf(tuple(keys)),
        ),
        air=1,
    )


def _cells(desk: ChartDesk, number: int, row: ChartRow) -> Iterator[Written]:
    off, at = desk.kept_off(row), desk.across.within(len(row.cells))
    cell = row.cells[at] if row.cells else None
    yield Written(("name", number), printable(row.name, 60), "name")
    yield Written(("score", number), score_words(cell, off=off), "score", across="right")
    day = "" if cell is None or off else f"{date.fromisoformat(cell.best.day):%d %b %y}"
    yield Written(("day", number), day, "day", role="detail", matters=2)
    beside = (*range(at + 1, len(row.cells)), *range(at))[:_OTHERS]
    for nth in range(_OTHERS):
        words = _other(desk, row, beside[nth], off=off) if nth < len(beside) else ""
        yield Written(("other", nth, number), words, f"other {nth}", role="detail")


def _other(desk: ChartDesk, row: ChartRow, at: int, *, off: bool) -> str:
    score = score_words(row.cells[at], off=off)
    return f"{printable(desk.headings[at], 20)} {score}" if score else ""
