"""A segment's clock as data: its spans, and its cues.

Nothing beyond it knows how a format's clock runs.
"""

from classclock.clock.cues import cues_of
from classclock.clock.span import Span
from classclock.clock.timeline import Timeline
from classclock.plan.formats.cue_switches import switched_off
from classclock.plan.formats.segment_base import SegmentBase


def timeline(segment: SegmentBase, total: int | None = None) -> Timeline:
    """The segment's clock.

    `total` is its length in milliseconds where minutes were added to the plan's or taken from it.

    Raises:
        ValueError: `total` is given for a format whose steps say how long it is.
    """
    spans = segment.spans(total)
    return Timeline(
        spans=(Span("count-in", -segment.count_in, 0), *spans),
        cues=cues_of(spans, segment.about.cues, switched_off(segment.cues)),
        counts_up=segment.counts_up,
        steps=sum(span.kind == "work" for span in spans),
    )


def length(segment: SegmentBase) -> int:
    """How long the segment's clock runs from go, in milliseconds: its timeline's total."""
    return segment.spans()[-1].end
