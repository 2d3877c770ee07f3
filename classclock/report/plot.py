"""A benchmark's history as a plot for the terminal."""

from collections.abc import Callable, Sequence
from datetime import datetime
from math import ceil

from plotille import Figure

from classclock.book.goals.standing import GoalNow
from classclock.records.result import PROVISIONAL, Result
from classclock.records.score_trend import measured
from classclock.units.times import show_time

_WRITTEN, _MODIFIED, _PROVISIONAL = "o", "~", "?"
_GOAL, _LINE = "-", "\u00b7"
_APART = 4
"""Columns between the signs of a line."""
LEAST_POINTS = 2
_STEPS = {
    "load": (0.25, 0.5, 1, 2, 5, 10, 20, 50, 100, 200),
    "time": (1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1800),
    "reps": (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000),
}
"""What a scale may be divided by, so that people can read it: kilograms, seconds, reps."""
_AXES = 17
"""Columns that the scale on the left takes."""


def plot_lines(
    results: Sequence[Result], width: int, height: int = 9, goal: GoalNow | None = None
) -> tuple[str, ...]:
    """The results over time, with the signs of `legend`; nothing for fewer than two.

    With a goal a broken line stands where it is, and dots on the straight line of the last scores.

    What can't be put on one scale with the others, as reps at a cap beside times, is left out.
    """
    points = [(result, value) for result in results if (value := measured(result)) is not None]
    if len(points) < LEAST_POINTS:
        return ()
    kind = points[-1][0].kind
    line = goal.pointed.line if goal is not None and goal.pointed is not None else ()
    level = goal.level if goal is not None else None
    values = [value for _, value in (*points, *line)] + ([] if level is None else [level])
    margin = (max(values) - min(values)) * 0.1 or max(1.0, abs(values[0]) * 0.05)
    figure = Figure()
    figure.with_colors = False
    figure.origin = False
    figure.width, figure.height = max(20, width - _AXES), height
    figure.x_label, figure.y_label = "", _unit(kind)
    low, high = min(values) - margin, max(values) + margin
    figure.set_y_limits(low, high)
    figure.x_ticks_fkt = lambda at, _: f"{at:%d %b %y}" if isinstance(at, datetime) else ""
    figure.y_ticks_fkt = _ticks(kind, high - low, height)
    days = [datetime.fromisoformat(result.day) for result, _ in points]
    figure.plot(days, [value for _, value in points])
    if level is not None:
        until = max(days[-1], *(datetime.fromordinal(day) for day, _ in line)) if line else days[-1]
        _dotted(figure, (days[0], level), (until, level), _GOAL)
    if line:
        first, last = ((datetime.fromordinal(day), value) for day, value in line)
        _dotted(figure, first, last, _LINE)
    for result, value in points:
        figure.scatter([datetime.fromisoformat(result.day)], [value], marker=_sign(result))
    # Not every font has the empty one of these signs.
    shown = figure.show().replace("-> ()", "->").replace("\u2800", " ")
    return tuple(line.rstrip() for line in shown.splitlines())


def _dotted(
    figure: Figure, first: tuple[datetime, float], last: tuple[datetime, float], sign: str
) -> None:
    """Signs on a straight line from one point to another, some columns apart."""
    count = max(2, figure.width // _APART)
    parts = [at / count for at in range(count + 1)]
    days = [first[0] + (last[0] - first[0]) * part for part in parts]
    figure.scatter(days, [first[1] + (last[1] - first[1]) * part for part in parts], marker=sign)


def legend(results: Sequence[Result], goal: GoalNow | None = None) -> str:
    """What the signs of a plot mean, those that may be in it."""
    known = f"{_WRITTEN} as written, {_MODIFIED} modified"
    if any(map(provisional, results)):
        known += f", {_PROVISIONAL} provisional"
    if goal is not None and goal.level is not None:
        known += f", {_GOAL} goal"
    if goal is not None and goal.pointed is not None:
        known += f", {_LINE} straight line of the last {goal.pointed.trend.scores}"
    return known


def _sign(result: Result) -> str:
    if provisional(result):
        return _PROVISIONAL
    return _MODIFIED if result.terms.modification else _WRITTEN


def provisional(result: Result) -> bool:
    """Whether nobody has settled it yet."""
    return result.why_not == PROVISIONAL


def _unit(kind: str) -> str:
    return {"time": "time", "load": "kg"}.get(kind, "reps")


def _ticks(kind: str, span: float, rows: int) -> Callable[[float, float], str]:
    """What stands beside a row that reaches from one value up to another: a round number in it."""
    steps = _STEPS.get(kind, _STEPS["reps"])
    most = max(2, rows // 3)
    step = next((step for step in steps if span / step <= most), steps[-1])

    def tick(low: float, high: float) -> str:
        at = ceil(low / step) * step
        if at >= high:
            return ""
        return show_time(round(at) * 1000) if kind == "time" else f"{at:g}"

    return tick
