"""The pace of a goal: where it would be now, the same from go to the end. Pure.

Nobody knows how somebody will spread their work, so each rep of it has the same part of the time.
Work is reps, or rounds where they count no reps; times are milliseconds of the piece.
"""

from fractions import Fraction

from classclock.records.goals import Goal
from classclock.tally.counting.work import Work
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece


def round_due(goal: Goal, tally: LaneTally, cap: int, piece: Piece) -> int | None:
    """When the lane's round in progress is over at the pace of a goal in rounds.

    None once the goal is passed, and where the lane is done or the goal is no such score.
    """
    rounds, _, odd = goal.score.partition("+")
    if goal.kind != "rounds" or tally.out:
        return None
    sizes = _Sizes(tally, piece)
    whole = sizes.up_to(int(rounds)) + (0 if sizes.in_rounds else int(odd or 0))
    due = sizes.up_to(len(tally.rounds) + 1)
    if sizes.up_to(len(tally.rounds)) >= whole:
        return None
    return min(cap, int(Fraction(cap * due, whole)))


def work_due(goal: Goal, tally: LaneTally, elapsed: int, cap: int, piece: Piece) -> int | None:
    """How much work is done by now at the pace of a goal for set work: a time, or reps at the cap.

    None where the lane is done or the goal is no such score.
    """
    if goal.kind != "time" or tally.out or tally.finish is not None:
        return None
    sizes = _Sizes(tally, piece)
    whole = sizes.up_to(piece.rounds or 0)
    seconds = goal.as_result.finish_s
    wanted, time = (whole, seconds * 1000) if seconds is not None else (goal.worth, cap)
    return min(whole, wanted, int(Fraction(wanted * elapsed, time)))


class _Sizes:
    """How much work the rounds of a lane are: those done as they were, the others as planned."""

    def __init__(self, tally: LaneTally, piece: Piece) -> None:
        self._done = [done.reps for done in tally.rounds]
        self._work = Work(piece, tally.lane)
        self.in_rounds = not any((*self._done, self._work.round_reps(0)))

    def up_to(self, rounds: int) -> int:
        if self.in_rounds:
            return rounds
        done = self._done[:rounds]
        return sum(done) + sum(self._work.round_reps(at) for at in range(len(done), rounds))
