"""A benchmark's history as a plot for the terminal."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from plotille import Figure

from classclock.book.result import Result, finish_of, kg_of
from classclock.plan.times import show_time

_WRITTEN, _MODIFIED = "o", "~"
LEAST_POINTS = 2
_AXES = 17
"""Columns that the scale on the left takes."""


def plot_lines(results: Sequence[Result], width: int, height: int = 9) -> tuple[str, ...]:
    """The results over time, `o` as written and `~` modified; nothing for fewer than two.

    What can't be put on one scale with the others, as reps at a cap beside times, is left out.
    """
    points = [(result, value) for result in results if (value := plotted(result)) is not None]
    if len(points) < LEAST_POINTS:
        return ()
    kind = points[-1][0].kind
    values = [value for _, value in points]
    margin = (max(values) - min(values)) * 0.1 or max(1.0, abs(values[0]) * 0.05)
    figure = Figure()
    figure.with_colors = False
    figure.origin = False
    figure.width, figure.height = max(20, width - _AXES), height
    figure.x_label, figure.y_label = "", _unit(kind)
    figure.set_y_limits(min(values) - margin, max(values) + margin)
    figure.x_ticks_fkt = lambda at, _: f"{at:%d %b %y}" if isinstance(at, datetime) else ""
    figure.y_ticks_fkt = lambda value, _: _tick(kind, value)
    days = [datetime.fromisoformat(result.day) for result, _ in points]
    figure.plot(days, values)
    for result, value in points:
        marker = _MODIFIED if result.terms.modification else _WRITTEN
        figure.scatter([datetime.fromisoformat(result.day)], [value], marker=marker)
    # Not every font has the empty one of these signs.
    shown = figure.show().replace("-> ()", "->").replace("\u2800", " ")
    return tuple(line.rstrip() for line in shown.splitlines())


def plotted(result: Result) -> float | None:
    """A score as a number to draw: reps, seconds or kilograms. Only drawn, never recorded."""
    if result.worth is None:
        return None
    match result.kind:
        case "time":
            return finish_of(result.worth)
        case "load":
            return float(kg_of(result.worth).amount)
        case "rounds" if not result.total_reps:
            return float(result.score.partition("+")[0])
        case "rounds":
            return result.total_reps
        case "reps":
            return result.worth


def _unit(kind: str) -> str:
    return {"time": "time", "load": "kg"}.get(kind, "reps")


def _tick(kind: str, value: Any) -> str:
    return show_time(round(value) * 1000) if kind == "time" else f"{value:.0f}"
