"""Where somebody stands with what they work towards."""

from collections.abc import Collection
from datetime import date

from msgspec import Struct
from sqlalchemy import Connection

from classclock.book.goals.done import ResultsByBenchmark, counted_towards, sets_made
from classclock.book.goals.table import GoalsByAthlete, goals_of, standing_goals
from classclock.records.goals import Goal, GoalStands, goal_stands
from classclock.records.score_trend import PointedTo, goal_measure, pointed_to


class GoalNow(Struct, frozen=True):
    stands: GoalStands
    pointed: PointedTo | None
    """Where the last scores point."""
    level: float | None
    """The goal in the measure in which they are drawn; None where that can't be told."""


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
        stands = goal_stands(goal, results)
        return GoalNow(stands, pointed_to(goal, results, today), goal_measure(stands))

    return {athlete: tuple(map(now, theirs)) for athlete, theirs in goals.items()}


def goals_reached(
    connection: Connection, since: str, until: str
) -> dict[str, tuple[GoalStands, ...]]:
    """By athlete's id the goals that they reached from one day to another; ended ones too."""
    goals = goals_of(connection)
    done = done_towards(connection, goals)
    found: dict[str, tuple[GoalStands, ...]] = {}
    for athlete, theirs in goals.items():
        every = (goal_stands(one, done.get((athlete, one.benchmark), ())) for one in theirs)
        reached = tuple(
            one for one in every if one.reached is not None and since <= one.reached.day <= until
        )
        if reached:
            found[athlete] = reached
    return found


def done_towards(connection: Connection, goals: GoalsByAthlete) -> ResultsByBenchmark:
    """All that counts of what they did on the benchmarks of their goals; of lifts every set too."""
    wanted = {who: {one.benchmark for one in theirs} for who, theirs in goals.items() if theirs}
    lifted = {
        who: lifts
        for who, theirs in goals.items()
        if (lifts := {one.benchmark for one in theirs if one.kind == "load"})
    }
    done, sets = counted_towards(connection, wanted), sets_made(connection, lifted)
    return {key: (*done.get(key, ()), *sets.get(key, ())) for key in dict.fromkeys((*done, *sets))}
