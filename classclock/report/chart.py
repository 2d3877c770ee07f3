"""The benchmark chart: names down, benchmarks across, each one's best and when. Pure values."""

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from msgspec import Struct

from classclock.book.tables.queries import Athlete, Best
from classclock.records.bests import best_of
from classclock.records.class_entries import benchmark_key
from classclock.records.result import Result
from classclock.records.written_terms import NOT_SAID


class Cell(Struct, frozen=True):
    """One athlete's best on one benchmark, under the terms they used last."""

    best: Result
    modified: bool
    new: bool
    """Whether it was set this month."""
    others: tuple[Result, ...] = ()
    """Bests under other terms: named, not compared."""


class ChartRow(Struct, frozen=True):
    athlete: str
    """Their id."""
    name: str
    cells: tuple[Cell | None, ...]


class Chart(Struct, frozen=True):
    benchmarks: tuple[str, ...]
    rows: tuple[ChartRow, ...]
    month: str
    """The month that counts as this one, as in 2026-11."""


BestRows = Mapping[tuple[str, str], Sequence[Best]]


def chart(
    athletes: Sequence[Athlete],
    bests: BestRows,
    *,
    month: str,
    here: Collection[str] | None = None,
    sort: str = "name",
) -> Chart:
    """The chart of these athletes. Without bests somebody stands in it only if they are `here`.

    `here` filters by id. `sort` is "name", or a benchmark: its best first, by its own terms.

    Raises:
        LookupError: `sort` is no benchmark of the chart.
    """
    wanted = [one for one in athletes if here is None or one.id in here]
    ids = {one.id for one in wanted}
    benchmarks = tuple(sorted({name for athlete, name in bests if athlete in ids}))
    rows = [
        ChartRow(
            one.id,
            one.name,
            tuple(_cell(bests.get((one.id, name), ()), month) for name in benchmarks),
        )
        for one in wanted
    ]
    if here is None:
        rows = [row for row in rows if any(row.cells)]
    if sort != "name":
        if benchmark_key(sort) not in benchmarks:
            known = ", ".join(("name", *benchmarks))
            raise LookupError(f'no benchmark is called "{sort}": sort by {known}')
        place = benchmarks.index(benchmark_key(sort))
        rows.sort(key=lambda row: _best_first(row.cells[place]))
    return Chart(benchmarks, tuple(rows), month)


def _best_first(cell: Cell | None) -> tuple[Any, ...]:
    """As written before modified, whoever has none last; equal ones stay in order of names."""
    if cell is None:
        return (2, 0)
    return (int(cell.modified), -(cell.best.worth or 0))


def _cell(bests: Sequence[Best], month: str) -> Cell | None:
    """As written if there is any such best, else modified; among those the terms used last."""
    if not bests:
        return None
    written = [one for one in bests if not one.result.terms.modification]
    latest = (written or bests)[0].result
    compared = [one.result for one in bests if one.result.compares(latest)]
    best = best_of(compared)
    if best is None:
        return None
    others = tuple(one.result for one in bests if not one.result.compares(latest))
    return Cell(best, bool(latest.terms.modification), best.day.startswith(month), others)


def terms_words(result: Result) -> str:
    """What to know of a best's terms in a chart: the modification, the loads, the reps of a set."""
    terms = result.terms
    words = (terms.modification, terms.loads, terms.work if result.kind == "load" else "")
    return "; ".join(word for word in words if word and word != NOT_SAID)
