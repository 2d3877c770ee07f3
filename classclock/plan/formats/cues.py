"""Which cues a segment has, from its steps."""

from collections.abc import Iterator
from itertools import pairwise

from classclock.clock.timeline import Cue, Span
from classclock.plan.model import Cues

APART = 1000
"""Milliseconds: of two cues closer than this the later in the list is heard."""
WARNINGS = (3000, 2000, 1000)
"""Milliseconds before go, and before a change of step."""
LONG = 3 * 60_000
"""A segment shorter than this has no halfway and no last-minute cue."""
SHORT = 60_000
"""A segment shorter than this has no last-ten cue."""


def cues_of(steps: tuple[Span, ...], wanted: Cues) -> tuple[Cue, ...]:
    """The cues of a segment whose spans from go on are these, in the order of time.

    Never are two within a second of each other: the later in the list of cues is heard.
    """
    heard: list[Cue] = []
    for cue in reversed(list(_in_order_of_weight(steps, wanted))):
        if all(abs(cue.at - other.at) >= APART for other in heard):
            heard.append(cue)
    return tuple(sorted(heard, key=lambda cue: cue.at))


def _in_order_of_weight(steps: tuple[Span, ...], wanted: Cues) -> Iterator[Cue]:
    """Every cue the plan wants, the weightiest last."""
    if wanted.count_in:
        yield from (Cue(-left, "short") for left in WARNINGS)
        yield Cue(0, "go")
    if wanted.step:
        yield from _changes(steps)
    yield from _of_the_whole(steps[-1].end, wanted)


def _changes(steps: tuple[Span, ...]) -> Iterator[Cue]:
    """Warnings before each change of step, only those inside the step, then the changes."""
    for before, after in pairwise(steps):
        for left in WARNINGS:
            if after.start - left > before.start:
                yield Cue(after.start - left, "short")
    for after in steps[1:]:
        yield Cue(after.start, "go" if after.kind == "work" else "rest")


def _of_the_whole(total: int, wanted: Cues) -> Iterator[Cue]:
    if wanted.halfway and total >= LONG:
        yield Cue(total // 2, "halfway")
    if wanted.last_minute and total >= LONG:
        yield Cue(total - 60_000, "last-minute")
    if wanted.last_ten and total >= SHORT:
        yield Cue(total - 10_000, "last-ten")
    if wanted.end:
        yield Cue(total, "end")
