"""Where somebody stands with what they work towards."""

from collections.abc import Collection, Mapping
from datetime import date

from msgspec import Struct
from sqlalchemy import Connection

from classclock.book.tables.goals_kept import GoalsByAthlete, sets_made, standing_goals
from classclock.book.tables.queries import history
from classclock.records.goals import Goal, GoalStands, goal_stands
from classclock.records.result import Result
from classclock.records.score_trend import PointedTo, pointed_to

ResultsByBenchmark = Mapping[tuple[str, str], tuple[Result, ...]]
"""By athlete's id and benchmark, the earliest first."""


class GoalNow(Struct, frozen=True):
    stands: GoalStands
    pointed: PointedTo | None
    """Where the last scores point."""


def goals_now(
    connection: Connection, today: date, of: Collection[str] | None = None
) -> dict[str, tuple[GoalNow, ...]]:
    """By athlete's id their goals as they stand; nobody has an entry who has none.

    `of`: the ids of who is meant; else everybody.
    """
    goals = standing_goals(connection, of)
    done = done_towards(connection, goals)

    def now(goal: Goal) -> GoalNow:
        results = done.get((goal.athlete, goal.benchmark), ())
        return GoalNow(goal_stands(goal, results), pointed_to(goal, results, today))

    return {athlete: tuple(map(now, theirs)) for athlete, theirs in goals.items()}


def done_towards(connection: Connection, goals: GoalsByAthlete) -> ResultsByBenchmark:
    """All that these athletes did on the benchmarks of their goals; of lifts every set too."""
    benchmarks = {one.benchmark for theirs in goals.values() for one in theirs}
    lifted = {one.benchmark for theirs in goals.values() for one in theirs if one.kind == "load"}
    if not benchmarks:
        return {}
    done = history(connection, tuple(goals), benchmarks)
    sets = sets_made(connection, tuple(goals), lifted) if lifted else {}
    return {key: (*done.get(key, ()), *sets.get(key, ())) for key in dict.fromkeys((*done, *sets))}
