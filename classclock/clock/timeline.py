"""A segment's clock as data: spans, cues at set moments, and what the clock shows.

Elapsed time is whole milliseconds from go; the count-in is negative.
"""

from dataclasses import dataclass
from typing import Literal

SpanKind = Literal["count-in", "work", "rest"]
CueKind = Literal["short", "go", "rest", "halfway", "last-minute", "last-ten", "end"]


@dataclass(frozen=True, slots=True)
class Span:
    kind: SpanKind
    start: int
    end: int
    label: str = ""
    number: int = 0
    """Which work step it is, from 1, or after which one the rest comes; 0 in the count-in."""
    stations: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cue:
    at: int
    kind: CueKind


@dataclass(frozen=True, slots=True)
class Reading:
    """What the clock shows at one moment."""

    span: Span
    elapsed: int
    shown: int
    """The big number, in whole seconds, rounded as the display rounds."""
    total_left: int
    """Whole seconds left of the segment, rounded up."""
    over: bool


@dataclass(frozen=True, slots=True)
class Timeline:
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
        raise NotImplementedError
