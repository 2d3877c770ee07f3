"""One lane's score as results and screens take it."""

from decimal import Decimal
from typing import Literal

from msgspec import Struct

from classclock.tally.lane_tally import Attempt
from classclock.tally.lanes import Lane

Status = Literal["finished", "capped", "scored", "stopped", "absent", "going"]
"""`going` only while the piece runs: results never hold it."""


class LaneScore(Struct, frozen=True):
    """One lane's score. The first twelve fields are the columns of the results, in their order."""

    rank: int | None
    athlete: str
    score: str
    """As a person reads it: `7+12`, `8:31`, `112 reps`, `85 kg`."""
    rounds: int | None
    reps: int | None
    """Odd reps; None where the piece has none or nobody gave them."""
    total_reps: int | None
    time_s: int | None
    """The finish in whole seconds, rounded up."""
    load_kg: Decimal | None
    modification: str
    """The options in force, by name; empty is as written."""
    status: Status
    best_before: str | None
    note: str
    lane: Lane
    key: str
    members: tuple[str, ...]
    heat: int
    late: bool
    options: tuple[str | None, ...]
    """For each station the option's name; None is as written."""
    start_station: int
    splits: tuple[int | None, ...]
    """Whole seconds; they add up to the finish as it is recorded."""
    intervals: tuple[int | None, ...]
    attempts: tuple[Attempt, ...]
    flags: tuple[str, ...]
    loads: tuple[str, ...] = ()
    """The load at each station that has one, as the lane used it; `?` where nobody said which."""
    round_reps: tuple[int, ...] = ()
    """What each full round was worth."""
    own_options: tuple[str | None, ...] | None = None
    """What is to be remembered where some of `options` were taken only for want of equipment."""
    option_changed_s: int | None = None
    """When an option was changed in the middle, in whole seconds; None where none was."""
    portion: str | None = None
    """How much of the piece was agreed, by name, where it was less than the whole."""
    partners: tuple[str, ...] = ()
    """Whom the lane shared a bar with, turn by turn, by the ids of their lanes."""
