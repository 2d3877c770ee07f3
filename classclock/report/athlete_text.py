"""An athlete's page for a terminal, and as plain values."""

from collections.abc import Iterator
from textwrap import wrap
from typing import Any

from msgspec import to_builtins
from rich.cells import cell_len, set_cell_size

from classclock.book.tables.lifted import LiftBest
from classclock.book.tables.queries import Best
from classclock.plan.amounts import rep_words
from classclock.records.attendance import WeekAttended
from classclock.records.bests import long_day
from classclock.records.effort_weeks import EffortWeek
from classclock.report.athlete_page import AthletePage
from classclock.report.cells import pad
from classclock.report.effort_words import effort_lines
from classclock.report.goal_words import asked_words, goal_values, pointed_words
from classclock.report.plot import legend, plot_lines
from classclock.units.printable import printable

_GAP = "  "
_LONGEST = 500
"""Signs of a cell: more than all options of a piece."""
_TERMS, _LEAST_TERMS = 3, 20
"""Which cell of a best says its terms, and the columns that they have at least."""


def athlete_lines(page: AthletePage, width: int) -> tuple[str, ...]:
    """The page in plain text."""
    return tuple(line.rstrip() for line in _lines(page, width))


def _lines(page: AthletePage, width: int) -> Iterator[str]:
    who = page.athlete
    yield printable(who.name)
    if not who.classes:
        yield "no class yet; scores from older records"
    else:
        yield (
            f"{_classes(who.classes)}, the first on {long_day(who.first_day)}, "
            f"the last on {long_day(who.last_day)}"
        )
    if who.marks:
        yield f"marked: {', '.join(who.marks)}"
    yield ""
    yield from _attendance(page)
    if efforts := effort_lines(page.efforts):
        yield ""
        yield from efforts
    if page.modifications:
        yield ""
        yield "Modified in these weeks"
        for modification, times in page.modifications:
            yield f"  {times} x {printable(modification, _LONGEST)}"
    if page.goals:
        yield ""
        yield "Works towards"
        yield from _goals(page, width)
    if page.bests:
        yield ""
        yield "Bests"
        yield from _table([_best_cells(page, best) for best in page.bests], width, _TERMS)
    if page.lifts:
        yield ""
        yield "Heaviest made"
        yield from _table([_lift_cells(page, one) for one in page.lifts], width, None)
    goal = page.goal_on(page.shown)
    if plot := plot_lines(page.history, width, goal=goal):
        yield ""
        shown = printable(page.called(page.shown))
        yield from wrap(f"{shown}: {legend(page.history, goal)}", width)
        yield from plot


def _attendance(page: AthletePage) -> Iterator[str]:
    most = sum(week.classes for week in page.weeks)
    yield f"{_classes(most)} in the last twelve weeks"
    for week in page.weeks:
        yield f"  {week.monday:%d %b}  {'#' * week.classes or '-'}"


def _goals(page: AthletePage, width: int) -> Iterator[str]:
    """What is asked for, how far it is, and where the last scores point."""
    for one in page.goals:
        yield f"  {printable(asked_words(one.stands.goal), _LONGEST)}"
        for words in filter(None, (one.stands.far_words(), pointed_words(one.pointed))):
            yield from (f"    {line}" for line in wrap(printable(words, _LONGEST), width - 4))


def _lift_cells(page: AthletePage, one: LiftBest) -> list[str]:
    return [page.called(one.lift), _reps(one.reps), one.load, one.day, _aside(one)]


def _best_cells(page: AthletePage, best: Best) -> list[str]:
    result = best.result
    times = "once" if best.times == 1 else f"{best.times} times"
    return [page.called(result.benchmark), result.score, result.day, str(result.terms), times]


def _table(rows: list[list[str]], width: int, wrapped: int | None) -> Iterator[str]:
    """The rows; in a narrow window the cell that may be wrapped goes on in another line."""
    columns = [
        pad([printable(cell, _LONGEST) for cell in column]) for column in zip(*rows, strict=True)
    ]
    over = sum(cell_len(column[0]) + 2 for column in columns) - width
    for cells in zip(*columns, strict=True):
        if over <= 0 or wrapped is None:
            yield _GAP + _GAP.join(cells)
            continue
        terms = cells[wrapped]
        before = _GAP + _GAP.join(cells[:wrapped]) + _GAP
        narrow = max(_LEAST_TERMS, cell_len(terms) - over)
        first, *more = wrap(terms.rstrip(), narrow) or [""]
        yield before + _GAP.join((set_cell_size(first, narrow), *cells[wrapped + 1 :]))
        yield from (" " * cell_len(before) + line for line in more)


def _reps(reps: int | None) -> str:
    if reps is None:
        return "reps not said"
    return rep_words(reps)


def _aside(lift: LiftBest) -> str:
    return "provisional" if lift.provisional else ""


def _classes(number: int) -> str:
    return "1 class" if number == 1 else f"{number} classes"


def _week_values(week: WeekAttended, effort: EffortWeek) -> dict[str, Any]:
    return {
        "monday": week.monday.isoformat(),
        "classes": week.classes,
        "effort_minutes": effort.effort_minutes,
        "monotony": effort.monotony,
        "strain": effort.strain,
    }


def page_values(page: AthletePage) -> dict[str, Any]:
    """The page as plain values, ready for JSON."""
    return {
        **to_builtins(page.athlete),
        "weeks": [
            _week_values(week, effort)
            for week, effort in zip(reversed(page.weeks), reversed(page.efforts), strict=True)
        ],
        "goals": [goal_values(one.stands) for one in page.goals],
        "modifications": [
            {"modification": name, "times": times} for name, times in page.modifications
        ],
        "bests": [
            {
                "benchmark": best.result.benchmark,
                "score": best.result.score,
                "day": best.result.day,
                "times": best.times,
                **to_builtins(best.result.terms),
            }
            for best in page.bests
        ],
        "lifts": [to_builtins(one) for one in page.lifts],
        "history": {
            "benchmark": page.shown,
            "results": [
                {
                    "day": one.day,
                    "score": one.score,
                    "counts": one.counts,
                    "why_not": one.why_not,
                    **to_builtins(one.terms),
                }
                for one in page.history
            ],
        },
    }
