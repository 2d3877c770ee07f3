"""The benchmark chart: names down, benchmarks across, each one's best and when. Pure values."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Any

from msgspec import Struct

from classclock.book.goals.standing import GoalNow
from classclock.book.tables.queries import Athlete, Best
from classclock.records.bests import best_of
from classclock.records.lift_sets import could_lift, maximum_of, says_most
from classclock.records.result import Result
from classclock.report.chart.columns import ChartColumn, chart_columns, column_called
from classclock.strength.maxima import Maximum


class Cell(Struct, frozen=True):
    """One athlete's best on one benchmark.

    Under the options and loads they used last; of a lift the set that says most.
    """

    best: Result
    modified: bool
    month: str
    """The month that counts as this one."""
    others: tuple[Result, ...] = ()
    """Bests under other terms, and of a lift those of other numbers of reps."""
    goal: GoalNow | None = None
    """What they work towards there."""

    @property
    def new(self) -> bool:
        return self.is_new(self.best)

    def is_new(self, best: Result) -> bool:
        """Whether it was set this month."""
        return best.day.startswith(self.month)

    @property
    def maximum(self) -> Maximum | None:
        """What the best says that they could lift once; None where it says nothing of that."""
        return maximum_of(self.best)


class ChartRow(Struct, frozen=True):
    athlete: str
    """Their id."""
    name: str
    cells: tuple[Cell | None, ...]


class Chart(Struct, frozen=True):
    columns: tuple[ChartColumn, ...]
    rows: tuple[ChartRow, ...]
    month: str
    """The month that counts as this one, as in 2026-11."""
    sorted_by: ChartColumn | None = None
    """The benchmark by which the rows are in order; None: by name."""

    @property
    def benchmarks(self) -> tuple[str, ...]:
        """As they are compared, in small letters."""
        return tuple(column.key for column in self.columns)


BestRows = Mapping[tuple[str, str], Sequence[Best]]
ChartGoals = Mapping[str, Sequence[GoalNow]]
"""By athlete's id."""


def chart(
    athletes: Sequence[Athlete],
    bests: BestRows,
    *,
    month: str,
    here: Collection[str] | None = None,
    sort: str = "name",
    benchmarks: Sequence[str] | None = None,
    goals: ChartGoals | None = None,
) -> Chart:
    """The chart of these athletes. Without bests somebody stands in it only if they are `here`.

    `here` filters by id. `benchmarks` names the columns, in their order; all that anybody did
    unless some are named. `sort` is "name", or one of them: as written first, then by its best, in
    a lift by the highest estimated maximum.

    Raises:
        LookupError: one that is named is no benchmark, or `sort` is none of the chart.
    """
    wanted = [one for one in athletes if here is None or one.id in here]
    columns = _columns(athletes if benchmarks is not None else wanted, bests, benchmarks)
    rows = [
        ChartRow(
            one.id,
            one.name,
            tuple(
                _cell(
                    bests.get((one.id, column.key), ()),
                    month,
                    _goal((goals or {}).get(one.id, ()), column.key),
                )
                for column in columns
            ),
        )
        for one in wanted
    ]
    if here is None:
        rows = [row for row in rows if any(row.cells)]
    sorted_by = None
    if sort != "name":
        sorted_by = column_called(sort, columns, _sort_by)
        place = columns.index(sorted_by)
        rows.sort(key=lambda row: _best_first(row.cells[place]))
    return Chart(columns, tuple(rows), month, sorted_by)


def _columns(
    athletes: Iterable[Athlete], bests: BestRows, named: Sequence[str] | None
) -> tuple[ChartColumn, ...]:
    ids = {one.id for one in athletes}
    theirs = (best.result for key, group in bests.items() if key[0] in ids for best in group)
    every = chart_columns(theirs)
    if named is None:
        return every
    found = (column_called(one, every, lambda known: f"there are {known}") for one in named)
    return tuple(dict.fromkeys(found))


def _sort_by(known: str) -> str:
    return f"sort by name, {known}" if known else "sort by name"


def _best_first(cell: Cell | None) -> tuple[Any, ...]:
    """As written before modified, whoever has none last; equal ones stay in order of names."""
    if cell is None:
        return (2, 0)
    best = cell.best
    return (
        int(cell.modified or _shared(best)),
        -(could_lift(best) if best.kind == "load" else best.worth or 0),
    )


def _goal(goals: Sequence[GoalNow], benchmark: str) -> GoalNow | None:
    return next((one for one in goals if one.stands.goal.benchmark == benchmark), None)


def _cell(bests: Sequence[Best], month: str, goal: GoalNow | None) -> Cell | None:
    if not bests:
        return None
    latest = _latest(bests)
    alike: list[Result] = []
    others: list[Result] = []
    for one in bests:
        result = one.result
        (alike if result is latest or _compares(result, latest) else others).append(result)
    best = _best(alike)
    if best is None:
        return None
    if best.kind == "load":
        others = [one.result for one in bests if one.result is not best]
    return Cell(best, bool(latest.terms.modification), month, tuple(others), goal)


def _latest(bests: Sequence[Best]) -> Result:
    """The one used last: as written if there is any such best, and of lifts one lifted alone."""
    written = [one for one in bests if not one.result.terms.modification] or bests
    alone = (one for one in written if not _shared(one.result))
    return next(alone, written[0]).result


def _shared(result: Result) -> bool:
    """Whether it is a load that nobody lifted alone."""
    return result.kind == "load" and result.terms.team > 1


def _compares(one: Result, latest: Result) -> bool:
    """Sets of a lift do by their estimated maxima, however many reps they had."""
    if "load" in (one.kind, latest.kind):
        return one.kind == latest.kind and one.terms.equal(latest.terms, any_length=True)
    return one.compares(latest)


def _best(results: Sequence[Result]) -> Result | None:
    if len(results) == 1 and results[0].counts:  # most cells of a chart
        return results[0]
    return says_most(results) if results[0].kind == "load" else best_of(results)
