"""The chart as CSV."""

from collections.abc import Iterator

from classclock.report.chart import Chart
from classclock.units.csv_cells import csv_bytes

COLUMNS = ("name", "benchmark", "score", "date", "modification", "load", "work", "new")


def chart_csv(chart: Chart) -> bytes:
    """A row for each best, those under other terms too."""
    return csv_bytes(COLUMNS, _rows(chart))


def _rows(chart: Chart) -> Iterator[tuple[object, ...]]:
    for row in chart.rows:
        for benchmark, cell in zip(chart.benchmarks, row.cells, strict=True):
            if cell is None:
                continue
            for best in (cell.best, *cell.others):
                terms = best.terms
                new = "new" if best.day.startswith(chart.month) else ""
                said = (terms.modification, terms.loads, terms.work, new)
                yield (row.name, benchmark, best.score, best.day, *said)
