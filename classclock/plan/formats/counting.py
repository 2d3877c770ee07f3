"""How a segment is counted, as plain values: its format says it, the tally goes by it."""

from typing import Literal

from msgspec import Struct

CountsBy = Literal["nothing", "rounds", "intervals", "reps", "load"]
"""What a lane's score is made of; a segment that counts nothing is no piece."""
Count = Literal["round", "station", "finish"]
"""What a tap is, where rounds are counted."""
IntervalRule = Literal["total", "lowest", "best"]


class Counting(Struct, frozen=True, kw_only=True):
    counts_by: CountsBy
    rounds: int | None = None
    """How many rounds the work has, where it is a set amount."""
    count: Count = "round"
    scheme: tuple[int, ...] | None = None
    """The reps, round by round, of every station that names none."""
    tie_break: bool = False
    """Equal totals: the earlier completion of the last full round first."""
    interval_rule: IntervalRule | None = None
    """Which of the intervals' reps make the score."""

    @property
    def can_finish(self) -> bool:
        """Whether the work is a set amount, so that a lane can be done before the cap."""
        return self.rounds is not None
