"""What a chart says, the same in a terminal and on paper: its marks, its scores, its legend."""

from collections.abc import Iterator
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from classclock.book.goals.standing import GoalNow
from classclock.records.bests import month_words
from classclock.records.lift_sets import beside, maximum_of, reps_of
from classclock.records.result import Result
from classclock.records.score_trend import PointedTo
from classclock.records.written_terms import NOT_SAID
from classclock.report.chart.chart import Cell, Chart
from classclock.report.goal_words import NO_PROMISE, short_goal_words
from classclock.strength.maxima import Maximum, maximum
from classclock.units.loads import Load

MODIFIED, NEW, OTHERS = "~", "*", "+"
NOBODY = "Nobody has a best yet: they come with the first settled benchmark."


_EXAMPLE = maximum(Load(Decimal(70), "kg"), 3)
"""What the legend explains an estimate by."""


def best_words(best: Result) -> str:
    """`7+12`; of a lift with how many reps: `70 kg x 3`."""
    reps = reps_of(best)
    return best.score if reps is None else f"{best.score} x {reps}"


def score_words(cell: Cell) -> str:
    """The best with the marks that a chart explains: `~7+12*`."""
    return f"{MODIFIED if cell.modified else ''}{_marked(cell, cell.best)}"


def small_lines(cell: Cell) -> tuple[str, ...]:
    """What stands under a score: the estimate, the day, the terms, then the other bests."""
    best = cell.best
    return tuple(
        filter(
            None,
            (
                *(estimate_words(best), best.day, terms_words(best)),
                *also_words(cell),
                *goal_small_words(cell.goal),
            ),
        )
    )


def goal_small_words(goal: GoalNow | None) -> tuple[str, ...]:
    """What is asked for, how far it is, and where the last scores point."""
    if goal is None:
        return ()
    pointed = goal.pointed
    points = "" if pointed is None else f"points to {pointed.shown}{_when(pointed)}"
    return (short_goal_words(goal.stands), points) if points else (short_goal_words(goal.stands),)


def _when(pointed: PointedTo) -> str:
    return f" on {pointed.day}" if pointed.ahead else " today"


def estimate_words(best: Result) -> str:
    """`about 74`, in the unit of the load; empty where nothing is estimated."""
    most = maximum_of(best)
    return "" if most is None or most.measured else _about(most)


def _about(most: Maximum) -> str:
    return f"about {most.load.amount.quantize(Decimal(1), ROUND_HALF_UP)}"


def terms_words(best: Result) -> str:
    """The options, the loads, how many shared the score: as far as somebody said."""
    return "; ".join(filter(None, (_made_with(best), _team(best))))


def _made_with(best: Result) -> str:
    loads = "" if best.terms.loads == NOT_SAID else best.terms.loads
    return "; ".join(filter(None, (best.terms.modification, loads)))


def _team(best: Result) -> str:
    return f"team of {best.terms.team}" if best.terms.team > 1 else ""


def legend(chart: Chart) -> tuple[str, ...]:
    """What the marks mean that stand in the chart, and by what it is sorted."""
    return tuple(_legend(chart))


def _legend(chart: Chart) -> Iterator[str]:
    cells = [cell for row in chart.rows for cell in row.cells if cell is not None]
    if any(cell.modified for cell in cells):
        yield f"{MODIFIED} modified: with an easier or safer option"
    if any(cell.is_new(best) for cell in cells for best in (cell.best, *_others_told(cell))):
        yield f"{NEW} set this month, in {month_words(date.fromisoformat(f'{chart.month}-01'))}"
    if any(estimate_words(cell.best) for cell in cells):
        reps, about = _EXAMPLE.reps, _about(_EXAMPLE)
        yield (
            f"{_EXAMPLE.lifted} x {reps}, {about}: a set of {reps} reps; {about} for one is an "
            f"estimate ({_EXAMPLE.formula.title()}), often low for older adults"
        )
    if any(cell.goal for cell in cells):
        yield "goal: what somebody works towards, and how far it is from their best so"
    if any(cell.goal and cell.goal.pointed for cell in cells):
        yield f"points to: the last scores as a straight line; {NO_PROMISE}"
    if chart.sorted_by is not None:
        yield f"Sorted by {chart.sorted_by.heading}: {order_words(chart)}"


def order_words(chart: Chart) -> str:
    by = chart.sorted_by
    if by is None:
        return "by name"
    return "highest estimated maximum first" if by.lift else "best first"


def also_words(cell: Cell) -> tuple[str, ...]:
    """Of a lift the other sets that say something, then bests under other terms."""
    return tuple(f"also {_marked(cell, one)}{_otherwise(cell, one)}" for one in _others_told(cell))


def _others_told(cell: Cell) -> tuple[Result, ...]:
    sets = [one for one in cell.others if _is_set_of(cell, one)]
    rest = (one for one in cell.others if one not in sets)
    return (*beside(cell.best, sets), *rest)


def _is_set_of(cell: Cell, other: Result) -> bool:
    """Whether it differs from the best in its load and reps alone."""
    lifted = other.kind == cell.best.kind == "load"
    return lifted and other.terms.equal(cell.best.terms, any_length=True)


def _otherwise(cell: Cell, other: Result) -> str:
    if _is_set_of(cell, other):
        return ""
    made_with, team = _made_with(other), _team(other)
    return f"{f' with {made_with}' if made_with else ''}{f', {team}' if team else ''}"


def _marked(cell: Cell, best: Result) -> str:
    return f"{best_words(best)}{NEW if cell.is_new(best) else ''}"
