"""Which cues a segment has, from its spans."""

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


def cues_of(spans: tuple[Span, ...], wanted: Cues) -> tuple[Cue, ...]:
    """The cues of these spans in the order of time, never two within a second of each other."""
    heard: list[Cue] = []
    for cue in reversed(list(_in_order_of_weight(spans, wanted))):
        if all(abs(cue.at - other.at) >= APART for other in heard):
            heard.append(cue)
    return tuple(sorted(heard, key=lambda cue: cue.at))


def _in_order_of_weight(spans: tuple[Span, ...], wanted: Cues) -> Iterator[Cue]:
    """Every cue the plan wants, the weightiest last."""
    if wanted.count_in:
        yield from _count_in(spans[0].start)
    if wanted.step:
        yield from _changes([span for span in spans if span.kind != "count-in"])
    yield from _of_the_whole(spans[-1].end, wanted)


def _count_in(start: int) -> Iterator[Cue]:
    yield from (Cue(-left, "short") for left in WARNINGS if -left >= start)
    yield Cue(0, "go")


def _changes(steps: list[Span]) -> Iterator[Cue]:
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
