"""The chart as CSV."""

from collections.abc import Iterator
from decimal import ROUND_HALF_EVEN, Decimal

from classclock.records.lift_sets import maximum_of
from classclock.records.result import Result
from classclock.report.chart.chart import Chart
from classclock.units.csv_cells import csv_bytes
from classclock.units.loads import plain

COLUMNS = (
    *("name", "benchmark", "score", "date", "modification", "load", "work", "new"),
    "estimated_maximum_kg",
)


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
                new = "new" if cell.is_new(best) else ""
                said = (terms.modification, terms.loads, terms.work, new, _estimate(best))
                yield (row.name, benchmark, best.score, best.day, *said)


def _estimate(best: Result) -> str:
    """Kilograms; empty where nothing is estimated, or the load was lifted once."""
    most = maximum_of(best)
    if most is None or most.measured:
        return ""
    return plain(most.load.kg.quantize(Decimal("0.1"), ROUND_HALF_EVEN))
