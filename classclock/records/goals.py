"""Goals: a score that somebody works towards, whether it is reached, and how far it is. Pure.

A goal has terms as a score has: what was made otherwise neither reaches it nor comes nearer.
"""

from collections.abc import Iterable

from msgspec import Struct

from classclock.records.bests import best_of, long_day, margin
from classclock.records.lift_sets import reps_of
from classclock.records.result import Result, ScoreKind, Terms


class Goal(Struct, frozen=True):
    """Days are as in 2026-11-24."""

    athlete: str
    """Their id."""
    benchmark: str
    """As it is compared."""
    written: str
    """The benchmark with its capitals."""
    score: str
    kind: ScoreKind
    worth: int
    """As `result.py` reckons it."""
    terms: Terms
    since: str
    """The day on which it was set."""
    by: str = ""
    """The day by which it is wanted; empty where none was said."""
    until: str = ""
    """The day on which it was dropped, or another took its place; empty: it stands."""

    @property
    def as_result(self) -> Result:
        """The score as if it had been made."""
        return Result(
            self.athlete,
            self.written,
            self.benchmark,
            self.since,
            0,
            self.score,
            self.kind,
            self.worth,
            None,
            self.terms,
        )

    def asks_for(self, result: Result) -> bool:
        """Whether it is the kind of score that is worked towards: its terms, and one that counts.

        A load is one for whoever lifted it at least as often.
        """
        if not result.counts or (result.benchmark, result.kind) != (self.benchmark, self.kind):
            return False
        if self.kind != "load":
            return result.compares(self.as_result)
        enough = (reps_of(result) or 1) >= (reps_of(self.as_result) or 1)
        return enough and result.terms.equal(self.terms, any_length=True)

    def met_by(self, result: Result) -> bool:
        """Whether a score is as good as the goal, whenever it was made."""
        return self.asks_for(result) and (result.worth or 0) >= self.worth

    def reached_by(self, result: Result) -> bool:
        """The same, made while it stood."""
        return self.stood_on(result.day) and self.met_by(result)

    def stood_on(self, day: str) -> bool:
        """Whether somebody worked towards it on that day, the first and the last too."""
        return self.since <= day and (not self.until or day <= self.until)

    def words(self) -> str:
        """What is asked for: `14+0 by 1 March 2027`."""
        return f"{goal_score(self)} by {long_day(self.by)}" if self.by else goal_score(self)


class GoalStands(Struct, frozen=True):
    """A goal beside what was done towards it."""

    goal: Goal
    best: Result | None = None
    """The best under its terms, whenever it was made."""
    reached: Result | None = None
    """The first that reached it."""
    size: int | None = None
    """The reps of a round, where all are alike and that is known."""

    def far_words(self) -> str:
        """How far it is: `2 rounds to go, best 12+0`; `reached on 5 November 2026`."""
        if self.reached is not None:
            return f"reached on {long_day(self.reached.day)} with {self.reached.score}"
        if self.best is None:
            return "not done so yet"
        far = to_go(self.goal, self.best, self.size)
        best = f"best {self.best.score} of {long_day(self.best.day)}"
        return f"{far} to go, {best}" if far else best


def goal_score(goal: Goal) -> str:
    """As it is written: `7+12`; of a lift with its reps, `70 kg x 3`."""
    reps = reps_of(goal.as_result)
    return goal.score if reps is None else f"{goal.score} x {reps}"


def goal_stands(goal: Goal, results: Iterable[Result]) -> GoalStands:
    """The goal beside these results of the same athlete."""
    asked_for = [one for one in results if goal.asks_for(one)]
    reached = min(filter(goal.reached_by, asked_for), key=lambda one: one.moment, default=None)
    return GoalStands(goal, best_of(asked_for), reached, round_size(asked_for))


def to_go(goal: Goal, best: Result, size: int | None = None) -> str:
    """How far it is from a best below it; empty where no number says that, or it isn't far.

    `size` is the reps of a round, where all are alike.
    """
    if (best.worth or 0) >= goal.worth:
        return ""
    if goal.kind != "rounds":
        return margin(goal.as_result, best)
    (wanted, odd), (done, odd_done) = _parts(goal.score), _parts(best.score)
    rounds, reps = wanted - done, odd - odd_done
    if reps < 0 and size is None:
        return f"less than {_counted(rounds, 'round')}"
    if reps < 0:
        rounds, reps = rounds - 1, reps + (size or 0)
    return " and ".join(filter(None, (_counted(rounds, "round"), _counted(reps, "rep"))))


def round_size(results: Iterable[Result]) -> int | None:
    """The reps of a round, by the scores alone: what another club's book says of them too.

    None where rounds differ, count no reps, or all scores have as many of them: those of rounds
    that grow may look alike then.
    """
    sizes = {}
    for one in results:
        if one.kind != "rounds" or not one.total_reps or one.worth is None:
            continue
        rounds, odd = _parts(one.score)
        if rounds:
            sizes[rounds] = (one.total_reps - odd) / rounds
    found = set(sizes.values())
    size = found.pop() if len(sizes) > 1 and len(found) == 1 else 0
    return int(size) if size and size == int(size) else None


def goal_reps(goal: Goal, size: int | None) -> int | None:
    """All the reps of a goal in rounds, by the reps of a round; None for other goals."""
    if goal.kind != "rounds" or size is None:
        return None
    rounds, odd = _parts(goal.score)
    return rounds * size + odd


def _parts(score: str) -> tuple[int, int]:
    """Full rounds and odd reps of `7+12`."""
    rounds, _, odd = score.partition("+")
    return int(rounds), int(odd or 0)


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}" if number else ""
