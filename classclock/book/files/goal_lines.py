"""Goals in `changes.jsonl`: one that is set, one that ends, one of another club's book.

Days are as in 2026-11-24; a score stands as results have it, and `worth` as `result.py` reckons it.
"""

from msgspec import UNSET, Struct, UnsetType

from classclock.book.files.change_line import ChangeLine
from classclock.records.result import ScoreKind
from classclock.records.written_terms import set_reps


class GoalSet(ChangeLine, frozen=True, tag="goal"):
    """What somebody works towards; one that they had on the same benchmark ends by it."""

    athlete: str
    benchmark: str
    """As it was written."""
    score: str
    kind: ScoreKind
    worth: int
    since: str
    """The day on which it was set."""
    by: str | UnsetType = UNSET
    """The day by which it is wanted, if one was said."""
    modification: str | UnsetType = UNSET
    loads: str | UnsetType = UNSET
    work: str | UnsetType = UNSET

    @property
    def words(self) -> str:
        """What is asked for: `14+0 by 2027-03-01`, `70 kg x 3`."""
        reps = set_reps(self.work) if self.kind == "load" and self.work else None
        score = self.score if reps is None else f"{self.score} x {reps}"
        return f"{score} by {self.by}" if self.by else score


class GoalDropped(ChangeLine, frozen=True, tag="goal dropped"):
    """The goal that somebody has on a benchmark ends."""

    athlete: str
    benchmark: str
    day: str


class ImportedGoal(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A goal that somebody has in another club's book, or had."""

    athlete: str
    name: str
    benchmark: str
    score: str
    kind: ScoreKind
    worth: int
    since: str
    by: str | UnsetType = UNSET
    until: str | UnsetType = UNSET
    """The day on which it ended; unsaid where it stands."""
    modification: str | UnsetType = UNSET
    loads: str | UnsetType = UNSET
    work: str | UnsetType = UNSET
