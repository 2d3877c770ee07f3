"""Whether a round or a station came far too soon, or far too late, for this lane.

Pace is whole microseconds a rep, or a round where it counts no reps: comparable between rounds
of different sizes, and never a float.
"""

from collections.abc import Sequence
from dataclasses import dataclass

ENOUGH = 3
"""How many paces make a median worth comparing with."""
DOUBTFUL_PERCENT = 40
SLOW_PERCENT = 180


@dataclass(frozen=True, slots=True)
class Verdict:
    doubtful: bool = False
    slow: bool = False


def pace(split: int, reps: int) -> int:
    """Microseconds a rep, from a split in milliseconds; of the whole where there are no reps."""
    return split * 1000 // max(reps, 1)


def judge(latest: int, earlier: Sequence[int]) -> Verdict:
    """Compare a pace with the lane's own earlier ones, once there are three."""
    if len(earlier) < ENOUGH:
        return Verdict()
    # twice the median is whole where the mean of the two middle paces is not
    ordered = sorted(earlier)
    doubled = ordered[(len(ordered) - 1) // 2] + ordered[len(ordered) // 2]
    return Verdict(
        doubtful=latest * 200 < doubled * DOUBTFUL_PERCENT,
        slow=latest * 200 > doubled * SLOW_PERCENT,
    )
