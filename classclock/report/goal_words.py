"""What is said of goals: what is asked for, how far it is, and where the last scores point."""

from typing import Any

from classclock.records.bests import long_day
from classclock.records.goals import Goal, GoalStands, goal_score, to_go
from classclock.records.result import Result
from classclock.records.score_trend import PointedTo
from classclock.records.written_terms import NOT_SAID
from classclock.units.printable import printable

NO_PROMISE = "where the last scores point, not a promise"


def asked_words(goal: Goal) -> str:
    """`turntable 14+0 by 1 March 2027 (as written; 16:00)`."""
    return f"{goal.written} {goal.words()} ({goal_terms(goal)})"


def typed_words(goal: Goal) -> str:
    """As a coach types it: `14+0 with step-up by 2027-03-01`."""
    option = f" with {goal.terms.modification}" if goal.terms.modification else ""
    return f"{goal_score(goal)}{option}{f' by {goal.by}' if goal.by else ''}"


def none_better_words(name: str, goal: Goal, best: Result) -> str:
    """That a goal is no better than what was done."""
    was = f"{name}'s best so is {best.score} of {long_day(best.day)}"
    return printable(f"{was}, and {goal.words()} is no better", 300)


def short_goal_words(stands: GoalStands) -> str:
    """For where there is little room: `goal 14+0 by 2027-03-01: 2 rounds to go`."""
    return _short(stands, stands.goal.by)


def goal_words(stands: GoalStands) -> str:
    """The same with the day in words: `goal 14+0 by 1 March 2027: 2 rounds to go`."""
    return _short(stands, long_day(stands.goal.by) if stands.goal.by else "")


def _short(stands: GoalStands, by: str) -> str:
    goal = stands.goal
    made_with = f" with {goal.terms.modification}" if goal.terms.modification else ""
    asked = f"goal {goal_score(goal)}{made_with}{f' by {by}' if by else ''}"
    if stands.reached is not None:
        return f"{asked}: reached"
    far = "" if stands.best is None else to_go(goal, stands.best, stands.size)
    return f"{asked}: {far} to go" if far else asked


def goal_terms(goal: Goal) -> str:
    """Under which terms it is meant, as far as they were said: `step-up; 16:00`."""
    terms = goal.terms
    work = "" if goal.kind == "load" else terms.work
    said = (terms.modification or "as written", terms.loads, work)
    return "; ".join(one for one in said if one and one != NOT_SAID)


def pointed_words(pointed: PointedTo | None) -> str:
    """`the last 6 scores, as a straight line, come to 13+5 on 1 March 2027: where the last …`."""
    if pointed is None:
        return ""
    when = f"on {long_day(pointed.day.isoformat())}" if pointed.ahead else "today"
    line = f"the last {pointed.trend.scores} scores, as a straight line, come to {pointed.shown}"
    return f"{line} {when}: {NO_PROMISE}"


def goal_values(stands: GoalStands) -> dict[str, Any]:
    """A goal as plain values, ready for JSON."""
    goal, best, reached = stands.goal, stands.best, stands.reached
    return {
        "benchmark": goal.benchmark,
        "goal": goal_score(goal),
        "by": goal.by or None,
        "best": None if best is None else best.score,
        "reached": reached is not None,
        "reached_on": None if reached is None else reached.day,
        "set": goal.since,
        "modification": goal.terms.modification,
        "loads": goal.terms.loads,
        "work": goal.terms.work,
    }
