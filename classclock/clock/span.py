"""One stretch of a segment's clock: its count-in, a step of work, a rest."""

from typing import Literal

from msgspec import Struct

SpanKind = Literal["count-in", "work", "rest"]


class Span(Struct, frozen=True):
    """From one elapsed time to another, both in milliseconds from go."""

    kind: SpanKind
    start: int
    end: int
    label: str = ""
    number: int = 0
    """Which work step it is, from 1, or after which one the rest comes; 0 in the count-in."""
    stations: tuple[str, ...] = ()
    """The movements that are done in it; none means all."""
