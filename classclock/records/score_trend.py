"""Where somebody's last scores point: the straight line through them. Pure.

It is an ordinary least-squares line of the scores over their days: of all straight lines the one
from which they lie least, in squares. Scores of few days say nothing, and no line is carried on
further than it goes back. It looks back and promises nothing.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct

from classclock.records.goals import Goal, GoalStands, goal_reps, round_size
from classclock.records.result import Result, finish_of, kg_of
from classclock.tally.scores.on_for import fitted
from classclock.units.loads import Load, parse_load
from classclock.units.times import show_time

FEWEST, MOST = 5, 10
"""Days with a score that a line takes at least, and of how many it is made at most."""
LEAST_DAYS = 21
"""From the first of them to the last. Both numbers are common sense, no source."""
_LB = float(Load(Decimal(1), "lb").kg)
"""Kilograms."""
DayScore = tuple[int, float]
"""A day, as Python counts them, and a score in its own measure."""


class ScoreTrend(Struct, frozen=True):
    scores: int
    first: int
    last: int
    """Days, as Python counts them."""
    mean_day: float
    mean: float
    a_day: float
    """How much more it is from one day to the next."""

    def on(self, day: int) -> float:
        """Where the line is on that day."""
        return self.mean + self.a_day * (day - self.mean_day)

    def reaches(self, day: int) -> bool:
        """Whether that day lies no further ahead of the scores than they go back."""
        return self.first <= day <= 2 * self.last - self.first


class PointedTo(Struct, frozen=True):
    """What a line comes to on some day."""

    trend: ScoreTrend
    day: date
    ahead: bool
    """Whether that day is to come."""
    shown: str
    """The score there, as such scores are written."""

    @property
    def line(self) -> tuple[DayScore, DayScore]:
        """The line as it is drawn: through its scores, and on to that day."""
        ends = self.trend.first, max(self.trend.last, self.day.toordinal())
        first, last = ((day, self.trend.on(day)) for day in ends)
        return first, last


def trend_through(points: Sequence[DayScore]) -> ScoreTrend | None:
    """The least-squares line through the last of these, in order of days; None for too few."""
    last = points[-MOST:]
    if len(last) < FEWEST or last[-1][0] - last[0][0] < LEAST_DAYS:
        return None
    days, values = [day for day, _ in last], [value for _, value in last]
    return ScoreTrend(
        len(last),
        days[0],
        days[-1],
        sum(days) / len(days),
        sum(values) / len(values),
        fitted(last),
    )


def pointed_to(goal: Goal, results: Iterable[Result], today: date) -> PointedTo | None:
    """Where the scores that the goal asks for point: on its day, or today if that is too far.

    None where they are too few, or point nowhere.
    """
    asked_for = _best_of_days(one for one in results if goal.asks_for(one))
    trend = trend_through(_points(asked_for))
    if trend is None:
        return None
    by = date.fromisoformat(goal.by) if goal.by else today
    day = next((one for one in (max(by, today), today) if trend.reaches(one.toordinal())), None)
    if day is None or (value := trend.on(day.toordinal())) <= 0:
        return None
    return PointedTo(trend, day, day > today, _shown(value, goal, asked_for))


def _best_of_days(results: Iterable[Result]) -> list[Result]:
    """Of each day the best, in order of days."""
    best: dict[str, Result] = {}
    for one in results:
        known = best.get(one.day)
        if known is None or (one.worth or 0) > (known.worth or 0):
            best[one.day] = one
    return [best[day] for day in sorted(best)]


def _points(results: Iterable[Result]) -> list[DayScore]:
    measured_ones = ((one.day, measured(one)) for one in results)
    return [
        (date.fromisoformat(day).toordinal(), value)
        for day, value in measured_ones
        if value is not None
    ]


def measured(result: Result) -> float | None:
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


def goal_measure(stands: GoalStands) -> float | None:
    """A goal in the measure of the scores that it asks for; None where that can't be told."""
    goal, best = stands.goal, stands.best
    if best is None or goal.kind != "rounds" or not best.total_reps:
        return None if best is None else measured(goal.as_result)
    return goal_reps(goal, stands.size)


def _shown(value: float, goal: Goal, results: Sequence[Result]) -> str:
    """To the nearest whole second or rep, half a kilogram or a pound."""
    match goal.kind:
        case "time":
            return show_time(round(value) * 1000)
        case "load":
            pounds = parse_load(goal.score, "kg").unit == "lb"
            return f"{round(value / _LB)} lb" if pounds else f"{round(value * 2) / 2:g} kg"
        case "rounds":
            return _rounds(value, results)
        case "reps":
            return f"{round(value)} reps"


def _rounds(value: float, results: Sequence[Result]) -> str:
    """In rounds and odd reps, where all rounds are alike; else in all the reps, or in rounds."""
    if (size := round_size(results)) is not None:
        rounds, odd = divmod(round(value), size)
        return f"{rounds}+{odd}"
    return f"{round(value)} reps" if results[-1].total_reps else f"{value:.1f} rounds"
