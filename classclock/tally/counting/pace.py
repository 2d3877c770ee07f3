"""Whether a round or a station came far too soon, or far too late, for this lane."""

from collections.abc import Sequence
from typing import NamedTuple

ENOUGH = 3
"""How many paces make a median worth comparing with."""
DOUBTFUL_PERCENT = 40
SLOW_PERCENT = 180


class Pace(NamedTuple):
    """Time for an amount, in milliseconds and reps; compared as one divided by the other."""

    split: int
    reps: int


class Verdict(NamedTuple):
    doubtful: bool = False
    slow: bool = False


def pace(split: int, reps: int) -> Pace:
    """The pace of a round or a station; where it counts no reps, of the whole."""
    return Pace(split, max(reps, 1))


def judge(latest: Pace, earlier: Sequence[Pace]) -> Verdict:
    """Compare a pace with the median of the lane's own earlier ones, once there are three.

    In whole numbers, so that exactly 40 % is not under 40 %.
    """
    if len(earlier) < ENOUGH:
        return Verdict()
    ordered = sorted(earlier, key=lambda each: each.split / each.reps)
    low, high = ordered[(len(ordered) - 1) // 2], ordered[len(ordered) // 2]
    # the median is median / (2 * low.reps * high.reps): the mean of the two in the middle
    median = (low.split * high.reps + high.split * low.reps) * latest.reps
    mine = 100 * latest.split * 2 * low.reps * high.reps
    return Verdict(doubtful=mine < median * DOUBTFUL_PERCENT, slow=mine > median * SLOW_PERCENT)
