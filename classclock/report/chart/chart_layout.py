"""A chart on A4: which benchmarks share a sheet with all the names, which way up, how large."""

from msgspec import Struct

from classclock.report.chart.chart import Cell, Chart
from classclock.report.chart.chart_words import legend, score_words, small_lines
from classclock.report.paper import LONG_SIDE, POINT, REGULAR, SHORT_SIDE, ems, lines_of

MARGIN = 11.0
"""Millimetres round a sheet."""
_SIZES = tuple(range(18, 10, -1))
"""Points of scores."""
GAP = 1.2
"""Em between two columns."""
_SPARE = 0.2
"""Em more than a column is reckoned to take: browsers round letters' sizes."""
_NAME = 0.9
"""Of a score's size: names, which are repeated on each sheet."""
_HEADING = 0.8
"""Of a score's size: what a benchmark is called."""
_SMALL = 0.62
"""Of a score's size: days, estimates and terms."""
_TITLE, _LEGEND_LINE = 14.0, 4.0
"""Millimetres of the page's title with the line under it, and of each line of the legend."""
_WRAPPED = 8.0
"""Em from which terms go on in another line."""


class ChartLayout(Struct, frozen=True):
    landscape: bool
    size: int
    """Points of a score."""
    name: float
    """Em of `size` that the names take."""
    widths: tuple[float, ...]
    """Em that each benchmark takes, with the gap after it."""
    groups: tuple[tuple[int, ...], ...]
    """The benchmarks of each sheet, by their place in the chart."""

    @property
    def small(self) -> float:
        """Points of days, estimates and terms."""
        return self.size * _SMALL

    @property
    def heading(self) -> float:
        return self.size * _HEADING

    @property
    def of_a_name(self) -> float:
        """Points."""
        return self.size * _NAME


def chart_layout(chart: Chart) -> ChartLayout:
    """The fewest sheets; of as few those with the largest letters, upright rather than across."""
    ways = [_laid_out(chart, size, across) for size in _SIZES for across in (False, True)]
    return min(ways, key=lambda one: (sheet_count(chart, one), -one.size, one.landscape))


def _laid_out(chart: Chart, size: int, landscape: bool) -> ChartLayout:  # noqa: FBT001  used as a value here alone
    long = LONG_SIDE if landscape else SHORT_SIDE
    wide = (long - 2 * MARGIN) / (size * POINT)
    names = max((ems(row.name) for row in chart.rows), default=0.0) * _NAME
    name = min(max(names, ems("Name") * _HEADING) + GAP + _SPARE, wide * 0.4)
    widths = tuple(min(_width(chart, place), wide - name) for place in range(len(chart.columns)))
    groups: list[tuple[int, ...]] = []
    left = 0.0
    for place, needed in enumerate(widths):
        if not groups or needed > left:
            groups.append(())
            left = wide - name
        groups[-1] += (place,)
        left -= needed
    return ChartLayout(landscape, size, name, widths, tuple(groups))


def _width(chart: Chart, place: int) -> float:
    """Em of a benchmark's column: no score, no day and no word of its terms is broken."""
    cells = [cell for row in chart.rows if (cell := row.cells[place]) is not None]
    scores = max((ems(score_words(cell)) for cell in cells), default=0.0)
    small = [line for cell in cells for line in small_lines(cell)]
    words = max((ems(word) for line in small for word in line.split()), default=0.0)
    line = min(max(map(ems, small), default=0.0) * REGULAR * _SMALL, _WRAPPED)
    heading = max(map(ems, chart.columns[place].heading.split())) * _HEADING
    return max(scores, heading, words * _SMALL, line) + GAP + _SPARE


def sheet_count(chart: Chart, layout: ChartLayout) -> int:
    """How many sheets it takes in print."""
    high = (SHORT_SIDE if layout.landscape else LONG_SIDE) - 2 * MARGIN - 3
    return sum(_pages(chart, layout, group, high) for group in layout.groups)


def _pages(chart: Chart, layout: ChartLayout, group: tuple[int, ...], high: float) -> int:
    line = layout.size * POINT
    heading = _heading(chart, layout, group) * line * _HEADING * 1.3 + 3
    title = _TITLE + len(legend(chart)) * _LEGEND_LINE
    pages, used = 1, heading + (title if group == layout.groups[0] else 0.0)
    for row in chart.rows:
        name = lines_of((row.name,), (layout.name - GAP) / _NAME) * line * _NAME * 1.2
        cells = ((row.cells[place], layout.widths[place]) for place in group)
        tall = max(name, *(_cell(cell, wide, line) for cell, wide in cells)) + line * 0.35
        if used + tall > high:
            pages, used = pages + 1, heading
        used += tall
    return pages


def _heading(chart: Chart, layout: ChartLayout, group: tuple[int, ...]) -> int:
    """Lines of the tallest heading on a sheet."""
    wide = (layout.widths[place] - GAP for place in group)
    words = (tuple(chart.columns[place].heading.split()) for place in group)
    return max(lines_of(each, room / _HEADING) for each, room in zip(words, wide, strict=True))


def _cell(cell: Cell | None, wide: float, line: float) -> float:
    """Millimetres that a cell takes down the page."""
    if cell is None:
        return 0.0
    wide = (wide - GAP) / _SMALL / REGULAR
    small = sum(lines_of(tuple(text.split()), wide) for text in small_lines(cell))
    return line * 1.2 + small * line * _SMALL * 1.2
