"""Each format compiled to a timeline: its spans, and its cues.

From here on all four are data; nothing else knows how a format's clock runs.
"""

from classclock.clock.timeline import Span, SpanKind, Timeline
from classclock.plan.formats.cues import cues_of
from classclock.plan.model import CappedForTime, Countdown, Interval, RoundsInTime, Segment


def timeline(segment: Segment, total: int | None = None) -> Timeline:
    """The segment's clock.

    `total` is its length in milliseconds where minutes were added to the plan's or taken from it.

    Raises:
        ValueError: `total` is given for an interval segment, whose steps say how long it is.
    """
    if isinstance(segment, Interval):
        if total is not None:
            raise ValueError(
                f'"{segment.name}" keeps its length: change its steps or its repeat in the plan'
            )
        steps = _interval_steps(segment)
    else:
        end = _written_length(segment) if total is None else total
        steps = (Span("work", 0, end, number=1),)
    return Timeline(
        spans=(Span("count-in", -segment.count_in, 0), *steps),
        cues=cues_of(steps, segment.cues),
        counts_up=_counts_up(segment),
        steps=sum(span.kind == "work" for span in steps),
    )


def length(segment: Segment) -> int:
    """How long the segment's clock runs from go, in milliseconds: its timeline's total."""
    if isinstance(segment, Interval):
        return _interval_steps(segment)[-1].end
    return _written_length(segment)


def _written_length(segment: Countdown | RoundsInTime | CappedForTime) -> int:
    return segment.cap if isinstance(segment, CappedForTime) else segment.time


def _counts_up(segment: Segment) -> bool:
    if isinstance(segment, RoundsInTime):
        return segment.direction == "up"
    return isinstance(segment, CappedForTime)


def _interval_steps(segment: Interval) -> tuple[Span, ...]:
    steps = list(segment.steps) * segment.repeat
    if steps[-1].work is None and not segment.keep_last_rest and len(steps) > 1:
        steps.pop()
    spans: list[Span] = []
    start = number = 0
    for step in steps:
        if step.work is not None:
            number += 1
        length = step.work if step.work is not None else step.rest or 0
        kind: SpanKind = "rest" if step.work is None else "work"
        spans.append(Span(kind, start, start + length, step.label, number, step.stations))
        start += length
    return tuple(spans)
