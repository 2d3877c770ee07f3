"""A history as points to draw in a page: where each result stands on a plane of 1000 by 240."""

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from classclock.book.goals.standing import GoalNow
from classclock.records.bests import in_one_line
from classclock.records.result import Result
from classclock.records.score_trend import measured
from classclock.report.plot import LEAST_POINTS, provisional

WIDTH, HEIGHT = 1000, 240


class Point(Struct, frozen=True):
    x: float
    y: float
    score: str
    words: str
    modified: bool
    provisional: bool
    best: bool
    """Whether nothing before was better on this scale, among those of its terms."""


class DrawnHistory(Struct, frozen=True):
    """What is drawn of a history."""

    points: tuple[Point, ...] = ()
    level: float | None = None
    """How high the goal is; None where there is none."""
    line: tuple[float, float, float, float] | None = None
    """From where to where the straight line of the last scores goes: x, y, x, y."""


def drawn(results: Sequence[Result], goal: GoalNow | None = None) -> DrawnHistory:
    """A point for each result that stands on one scale; better is higher. None for fewer than two.

    Where all are of one day or of one value they stand in the middle.
    """
    shown = [(one, value) for one in results if (value := measured(one)) is not None]
    if len(shown) < LEAST_POINTS:
        return DrawnHistory()
    days = [date.fromisoformat(one.day).toordinal() for one, _ in shown]
    sign = -1 if shown[-1][0].kind == "time" else 1
    values = [sign * value for _, value in shown]
    line = goal.pointed.line if goal is not None and goal.pointed is not None else ()
    level = None if goal is None or goal.level is None else sign * goal.level
    all_days = [*days, *(day for day, _ in line)]
    all_values = [
        *values,
        *(sign * value for _, value in line),
        *([] if level is None else [level]),
    ]

    def across(day: float) -> float:
        return _scaled(day, all_days, WIDTH)

    def down(value: float) -> float:
        return HEIGHT - _scaled(value, all_values, HEIGHT)

    most: list[Result] = []
    found = []
    for (one, _), day, value in zip(shown, days, values, strict=True):
        best = one.counts and not any(
            in_one_line(one, other) and (one.worth or 0) <= (other.worth or 0) for other in most
        )
        if best:
            most.append(one)
        found.append(
            Point(
                across(day),
                down(value),
                one.score,
                f"{one.score}, {one.day}, {one.terms}" + (", provisional" * provisional(one)),
                bool(one.terms.modification),
                provisional(one),
                best,
            )
        )
    ends = [(across(day), down(sign * value)) for day, value in line]
    return DrawnHistory(
        tuple(found),
        None if level is None else down(level),
        (*ends[0], *ends[1]) if ends else None,
    )


def _scaled(value: float, among: Sequence[float], length: int) -> float:
    low, high = min(among), max(among)
    return length / 2 if low == high else round((value - low) / (high - low) * length, 1)
