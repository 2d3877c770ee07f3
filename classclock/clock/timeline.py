"""A segment's clock as data: spans, cues at set moments, and what the clock shows.

Elapsed time is whole milliseconds from go; the count-in is negative.
"""

from bisect import bisect_right

from msgspec import Struct

from classclock.clock.cues import Cue
from classclock.clock.span import Span


class Reading(Struct, frozen=True):
    """What the clock shows at one moment."""

    span: Span
    elapsed: int
    """Milliseconds from go."""
    shown: int
    """The big number, in whole seconds, rounded as the display rounds."""
    total_left: int
    """Whole seconds left of the segment, rounded up."""
    over: bool


class Timeline(Struct, frozen=True):
    spans: tuple[Span, ...]
    cues: tuple[Cue, ...]
    counts_up: bool
    steps: int
    """How many work steps there are."""

    @property
    def total(self) -> int:
        """Milliseconds from go to the end."""
        return self.spans[-1].end

    def at(self, elapsed: int) -> Reading:
        """What the clock shows this long after go.

        Before the first span and after the end it stands.

        Counting down, the seconds left are rounded up (0:01 until exactly zero); counting up, the
        seconds gone are rounded down.
        """
        moment = self._within(elapsed)
        span = self._span(moment)
        down = self._counts_down(span)
        return Reading(
            span=span,
            elapsed=moment,
            shown=_rounded_up(span.end - moment) if down else moment // 1000,
            total_left=_rounded_up(self.total - max(moment, 0)),
            over=moment >= self.total,
        )

    def next_change(self, elapsed: int) -> int | None:
        """The next elapsed time at which anything in the reading but `elapsed` changes.

        None once the segment is over: nothing changes by itself then.
        """
        moment = self._within(elapsed)
        if moment >= self.total:
            return None
        span = self._span(moment)
        changes = [span.end]
        changes.append(_next_step(moment, span.end if self._counts_down(span) else 0))
        if span.kind != "count-in":
            changes.append(_next_step(moment, self.total))
        return min(changes)

    def _within(self, elapsed: int) -> int:
        return min(max(elapsed, self.spans[0].start), self.total)

    def _span(self, elapsed: int) -> Span:
        return self.spans[bisect_right(self.spans, elapsed, key=lambda span: span.start) - 1]

    def _counts_down(self, span: Span) -> bool:
        return span.kind == "count-in" or not self.counts_up


def _rounded_up(ms: int) -> int:
    return -(-ms // 1000)


def _next_step(elapsed: int, origin: int) -> int:
    """The next elapsed time that is whole seconds from the origin, before or after it."""
    return elapsed + 1000 - (elapsed - origin) % 1000
