"""A piece's clock as a page draws it by itself: where zero is on the laptop's raw clock."""

from msgspec import Struct
from msgspec.structs import replace

from classclock.clock.class_clock import ClassClock
from classclock.clock.cues import CueKind
from classclock.clock.engine import EngineView
from classclock.clock.source import WoundSource
from classclock.clock.span import SpanKind

NS_IN_US = 1_000


class PageClock(Struct, frozen=True):
    """Elapsed times are whole milliseconds from go, negative in the count-in.

    The page shows what `Timeline.at` would: the same rounding, the same spans.
    """

    spans: tuple[tuple[SpanKind, int, int], ...]
    """Kind, start and end of each."""
    up: bool
    """Whether it counts up, but for the count-in."""
    end: int
    """Where it stands for good."""
    cues: tuple[tuple[int, CueKind], ...]
    """When each is heard."""
    zero: int | None = None
    """Microseconds of the laptop's raw clock at go; None while it stands."""
    at: int = 0
    """What has gone while it stands."""
    speed: float = 1


def page_clock(view: EngineView, clock: ClassClock) -> PageClock:
    """The clock as it runs now."""
    timeline, now, source = view.timeline, clock.now(), clock.source
    speed = float(source.rate) if isinstance(source, WoundSource) else 1.0
    shown = PageClock(
        tuple((span.kind, span.start, span.end) for span in timeline.spans),
        timeline.counts_up,
        view.end,
        tuple((cue.at, cue.kind) for cue in timeline.cues if cue.at <= view.end),
        speed=speed,
    )
    elapsed = view.running.elapsed(now)
    if view.running.held or not speed:
        return replace(shown, at=elapsed)
    return replace(shown, zero=clock.raw(now - elapsed) // NS_IN_US)
