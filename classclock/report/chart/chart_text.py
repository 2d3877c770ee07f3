"""The chart for a terminal: the printed one's words, as many benchmarks as stand side by side."""

from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from classclock.report.cells import wrapped
from classclock.report.chart.chart import Cell, Chart
from classclock.report.chart.chart_words import NOBODY, legend, score_words, small_lines
from classclock.units.printable import printable

_GAP = "  "
_NARROWEST = 18
"""Columns in which headings and small lines are broken, where scores need no more."""
_LONGEST = 400
"""Signs of a heading, or of what stands under a score."""

InCell = Sequence[str]
"""What stands in one cell, line by line."""


def chart_lines(chart: Chart, width: int) -> tuple[str, ...]:
    """The lines, none wider than `width` unless a single column or the legend is."""
    if not chart.rows:
        return (NOBODY,)
    names = _Column([[""], *([printable(row.name)] for row in chart.rows)])
    sheets: list[list[_Column]] = []
    for place, column in enumerate(chart.columns):
        cells = [row.cells[place] for row in chart.rows]
        next_one = _column(column.heading, cells)
        if not sheets or sum(map(_wide, (*sheets[-1], next_one))) - len(_GAP) > width:
            sheets.append([names])
        sheets[-1].append(next_one)
    lines = [line for sheet in sheets or [[names]] for line in (*_sheet(sheet), "")]
    return (*lines, *legend(chart))


class _Column:
    """One column with its heading, each cell as wide as the widest line of all."""

    def __init__(self, blocks: Sequence[InCell]) -> None:
        self.blocks = blocks
        self.width = max(cell_len(line) for block in blocks for line in (*block, ""))

    def line(self, row: int, number: int) -> str:
        block = self.blocks[row]
        text = block[number] if number < len(block) else ""
        return text + " " * (self.width - cell_len(text))


def _wide(column: _Column) -> int:
    return column.width + len(_GAP)


def _sheet(columns: Sequence[_Column]) -> Iterator[str]:
    for row in range(len(columns[0].blocks)):
        for number in range(max(len(column.blocks[row]) for column in columns)):
            yield _GAP.join(column.line(row, number) for column in columns).rstrip()


def _column(heading: str, cells: Sequence[Cell | None]) -> _Column:
    scores = [printable(score_words(cell)) if cell else "" for cell in cells]
    wide = max(_NARROWEST, *map(cell_len, scores))
    small = ([] if cell is None else _small(cell, wide) for cell in cells)
    blocks = ([score, *lines] for score, lines in zip(scores, small, strict=True))
    return _Column([wrapped(printable(heading, _LONGEST), wide), *blocks])


def _small(cell: Cell, wide: int) -> list[str]:
    texts = (printable(text, _LONGEST) for text in small_lines(cell))
    return [line for text in texts for line in wrapped(text, wide)]
