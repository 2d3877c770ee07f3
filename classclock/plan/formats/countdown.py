"""Countdown: a time that runs to zero, for a warm-up, practice, or a heavy single in 12:00."""

from typing import ClassVar, Literal

from classclock.clock.span import Span
from classclock.plan.formats.counting import Counting
from classclock.plan.formats.segment_base import About, SegmentBase, one_stretch
from classclock.plan.value_types import Length
from classclock.units.times import show_time

_SCORED = {None: "", "load": "heaviest load in ", "reps": "most reps in "}


class Countdown(SegmentBase):
    format: Literal["countdown"]
    time: Length
    """How long it counts down."""
    score: Literal["load", "reps"] | None = None
    """What is scored: the heaviest load made, or the most reps; unscored without it."""

    about: ClassVar[About] = About(
        offered_as="a time that counts down: warm-up, mobility, practice",
        begins_with="a time that counts down: a warm-up, practice",
        called="Warm-up",
        starter='time = "8:00"',
        fields=("time", "score"),
        length_key="time",
        minutes_can_change=True,
        reported=("{time}", ""),
    )

    @property
    def counting(self) -> Counting:
        return Counting(counts_by=self.score or "nothing")

    def spans(self, total: int | None = None) -> tuple[Span, ...]:
        return one_stretch(self.time if total is None else total)

    def headline(self) -> str:
        return f"{_SCORED[self.score]}{show_time(self.time)}"
