"""The chart for a terminal: as many benchmarks beside each other as the width allows."""

from collections.abc import Sequence

from rich.cells import cell_len

from classclock.report.cells import pad
from classclock.report.chart import Cell, Chart
from classclock.units.printable import printable

MODIFIED, NEW, OTHERS = "~", "*", "+"
LEGEND = (
    f"{MODIFIED} modified   {NEW} new this month   "
    f"{OTHERS} another best with other options or loads"
)
_GAP = "  "


def chart_lines(chart: Chart, width: int) -> tuple[str, ...]:
    """The lines, none wider than `width` unless a single column is."""
    if not chart.rows:
        return ("Nobody has a best yet: they come with the first settled benchmark.",)
    names = _column("", [row.name for row in chart.rows])
    lines: list[str] = []
    block = list(names)
    for place, benchmark in enumerate(chart.benchmarks):
        cells = [row.cells[place] for row in chart.rows]
        column = _column(benchmark, [cell_words(cell) for cell in cells])
        if block != names and cell_len(block[0] + _GAP + column[0]) > width:
            lines += [*_trimmed(block), ""]
            block = list(names)
        block = [line + _GAP + cell for line, cell in zip(block, column, strict=True)]
    return (*lines, *_trimmed(block), "", LEGEND)


def cell_words(cell: Cell | None) -> str:
    """`~7+12 2026-11-24*`, or nothing."""
    if cell is None:
        return ""
    before = MODIFIED if cell.modified else ""
    after = (NEW if cell.new else "") + (OTHERS if cell.others else "")
    return f"{before}{cell.best.score} {cell.best.day}{after}"


def _column(title: str, cells: Sequence[str]) -> list[str]:
    shown = [printable(text) for text in (title, *cells)]
    return pad(shown)


def _trimmed(lines: Sequence[str]) -> list[str]:
    return [line.rstrip() for line in lines]
