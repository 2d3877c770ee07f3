"""Rounds in time: as many rounds and reps as possible."""

from typing import ClassVar, Literal

from classclock.clock.span import Span
from classclock.plan.amounts import rep_words
from classclock.plan.file_key import YES, FileKey
from classclock.plan.formats.counting import Counting
from classclock.plan.formats.segment_base import About, SegmentBase, one_stretch
from classclock.plan.value_types import Flag, Length
from classclock.units.times import show_time


class RoundsInTime(SegmentBase):
    format: Literal["rounds-in-time"]
    time: Length
    """How long it runs."""
    direction: Literal["down", "up"] = "down"
    """Whether the clock counts down to zero or up from it."""
    count: Literal["round", "station"] = "round"
    """What one stroke of a key counts."""
    tie_break: Flag = False
    """Equal totals: the earlier completion of the last full round first."""

    about: ClassVar[About] = About(
        offered_as="as many rounds and reps as possible in a time",
        begins_with="as many rounds as possible in a time",
        called="Rounds",
        starter='time = "12:00"',
        fields=("time", "direction", "count", "tie_break"),
        keys={
            "direction": FileKey("one of down, up", '"up"', "down or up", choices=("down", "up")),
            "tie_break": FileKey(
                YES,
                "true",
                "yes or no: of equal totals, who did the last full round first is ahead",
            ),
        },
        length_key="time",
        rounds="open",
        reported=("rounds and reps in {time}", "rounds and reps"),
    )

    @property
    def counting(self) -> Counting:
        return Counting(counts_by="rounds", count=self.count, tie_break=self.tie_break)

    def spans(self, total: int | None = None) -> tuple[Span, ...]:
        return one_stretch(self.time if total is None else total)

    @property
    def counts_up(self) -> bool:
        return self.direction == "up"

    def headline(self) -> str:
        return f"rounds in {show_time(self.time)}"

    def terms(self) -> str:
        first, second = self.round_reps(), self.round_reps(1)
        if first != second:
            return f", {rep_words(first)} in the first round, {second} in the second, and so on"
        return f", {rep_words(first)} a round" if first else ""
