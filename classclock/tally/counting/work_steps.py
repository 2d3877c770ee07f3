"""Which work step, an interval or a set, a number belongs to."""

from collections.abc import Callable

from classclock.clock.span import Span
from classclock.clock.timeline import Timeline

GRACE_PER_STEP = 4
"""Until this part of a work step has gone, a number may belong to the one before,"""
LONGEST_GRACE = 10_000
"""but for no longer than this. Milliseconds."""


def work_steps(timeline: Timeline, elapsed: int) -> tuple[Span, ...]:
    """The work steps that have begun, in order."""
    return tuple(span for span in timeline.spans if span.kind == "work" and span.start <= elapsed)


def step_of(timeline: Timeline, elapsed: int, lacks: Callable[[int], bool]) -> int | None:
    """The number of the work step, from 1, that a number given at this moment belongs to.

    It is the latest one; early in a work step it is the one before, if `lacks` says that the lane
    has nothing there yet. None before the first.
    """
    begun = work_steps(timeline, elapsed)
    if not begun:
        return None
    latest = begun[-1]
    grace = min((latest.end - latest.start) // GRACE_PER_STEP, LONGEST_GRACE)
    early = elapsed - latest.start < grace
    before = latest.number - 1
    return before if early and before >= 1 and lacks(before) else latest.number
