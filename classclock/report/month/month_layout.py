"""How large a month's names and scores stand on A4: as large as all the rest leaves them, whole."""

from collections.abc import Sequence

from msgspec import Struct

from classclock.records.benchmark_headings import heading
from classclock.report.month.month_text import aside_words, sum_words
from classclock.report.month.news import News
from classclock.report.month.page import MonthPage
from classclock.report.paper import LONG_SIDE, POINT, SHORT_SIDE, ems, lines_of

MARGIN = 11.0
"""Millimetres round a page."""
_WIDE, _HIGH = SHORT_SIDE - 2 * MARGIN, LONG_SIDE - 2 * MARGIN - 3
"""Millimetres that a page holds; what browsers round up is left."""
GAP = 7.0
"""Millimetres between two columns."""
_LARGEST, _LEAST, _STEP = 24.0, 9.0, 0.5
"""Points of a name; with less than the least it goes on to another page."""
_SHARES = (0.45, 0.36, 0.27)
"""Of a column for what stands beside a score."""
_UNBROKEN = 20.0
"""Em of a name that is never broken."""
_ASIDE, _LEAST_ASIDE = 0.6, 8.0
"""Of a name's size; points, at least."""
_PARTLY_BOLD = 0.98
"""How wide what stands beside a score is, beside bold letters."""
_FOOT = 8.0
"""Millimetres of the last line."""


class MonthLayout(Struct, frozen=True):
    columns: int
    """Of the news."""
    came_columns: int
    size: float
    """Points of a name and of a score."""
    name: float
    score: float
    came_name: float
    """Em of `size` that each takes."""

    @property
    def aside(self) -> float:
        """Points of what stands beside a score."""
        return max(_LEAST_ASIDE, self.size * _ASIDE)

    @property
    def heading(self) -> float:
        """Points of a heading: smaller than any name under it."""
        return min(12.0, self.size * 0.85)

    @property
    def title(self) -> float:
        return min(14.0, self.size * 0.95)


def month_layout(page: MonthPage) -> MonthLayout:
    """The largest letters with which all of it stands on the fewest pages."""
    steps = int((_LARGEST - _LEAST) / _STEP) + 1
    ways = [
        way
        for step in range(steps)
        for columns in (1, 2)
        for share in _SHARES
        if (way := _laid_out(page, columns, _LARGEST - _STEP * step, share)) is not None
    ]
    least = MonthLayout(1, 1, _LEAST, _UNBROKEN, 6.0, _UNBROKEN)
    return min(ways, key=lambda way: (page_count(page, way), -way.size), default=least)


def _laid_out(page: MonthPage, columns: int, size: float, share: float) -> MonthLayout | None:
    """None where names or scores would be broken."""
    every = [one for _, news in page.news for one in news]
    wide = _column(columns) / (size * POINT)
    score = max((ems(one.result.score) for one in every if one.result), default=0.0) + 0.8
    name = max((ems(one.athlete.name) for one in every), default=0.0) + 0.6
    most = wide * (1 - share) - score
    came = max((ems(one.athlete.name) for one in page.came), default=0.0) + 0.6
    page_wide = _WIDE / (size * POINT)
    if most < min(name, _UNBROKEN) or page_wide - _TIMES < min(came, _UNBROKEN):
        return None
    came = min(came, page_wide - _TIMES)
    came_columns = int((_WIDE + GAP) // ((came + _TIMES) * size * POINT + GAP))
    return MonthLayout(columns, max(1, came_columns), size, min(name, most), score, came)


_TIMES = ems("000") + 0.6
"""Em of how often somebody came."""


def _column(columns: int) -> float:
    """Millimetres of each."""
    return (_WIDE - GAP * (columns - 1)) / columns


def page_count(page: MonthPage, layout: MonthLayout) -> int:
    """How many pages it takes; rows aren't broken."""
    pages, used = 1, _head(page, layout)
    for above, rows in _blocks(page, layout):
        if used + above + (rows[0] if rows else 0.0) > _HIGH:
            pages, used = pages + 1, 0.0
        used += above
        for row in rows:
            if used + row > _HIGH:
                pages, used = pages + 1, 0.0
            used += row
    return pages + (used + _FOOT > _HIGH)


def _blocks(page: MonthPage, layout: MonthLayout) -> list[tuple[float, list[float]]]:
    """Of each part the millimetres that its heading and each of its rows take down the page."""
    above = layout.heading * POINT * 1.3 + 4
    news = [
        (above, _across([_row(one, layout) for one in kind], layout.columns))
        for _, kind in page.news
    ]
    came = [_name(one.athlete.name, layout.came_name, layout) for one in page.came]
    return [*news, (above, _across(came, layout.came_columns))] if came else news


def _across(rows: Sequence[float], columns: int) -> list[float]:
    """Rows set out in columns, read down: of each line across the tallest."""
    down = -(-len(rows) // columns) if rows else 0
    return [max(rows[at::down]) for at in range(down)]


def _row(one: News, layout: MonthLayout) -> float:
    wide = _column(layout.columns) - (layout.name + layout.score) * layout.size * POINT
    words = f"{heading(one.result) if one.result else ''} {aside_words(one)}"
    aside = lines_of(tuple(words.split()), max(wide, 1.0) / (layout.aside * POINT * _PARTLY_BOLD))
    beside = aside * layout.aside * POINT * 1.16 + layout.size * POINT * 0.16 + 0.3
    return max(_name(one.athlete.name, layout.name, layout), beside)


def _name(name: str, wide: float, layout: MonthLayout) -> float:
    lines = lines_of((name,), max(wide - 0.5, 1.0))
    return lines * layout.size * POINT * 1.15 + layout.size * POINT * 0.16 + 0.3


def _head(page: MonthPage, layout: MonthLayout) -> float:
    wide = _WIDE / (layout.title * POINT)
    words = (*page.month.words.split(), *sum_words(page).split())
    return (lines_of(words, wide) + 1) * layout.title * POINT * 1.25 + 3
